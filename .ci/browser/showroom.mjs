// The showroom as a seller uses it. A page is scrolled, a unit's file is saved, and the page
// loads again at the same place. Findings are shown over the last good page, with file and
// line, and disappear when they are fixed. Then a yard with markup where words belong:
// whatever a visitor does, it stays text, in the pages, in what the scripts draw, and in the
// showroom's own panel.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { spawn } from 'node:child_process';

export async function showroom(browser, { check, visit, program }) {
  const root = path.resolve(import.meta.dirname, '../..');
  const dir = fs.mkdtempSync(path.join(os.tmpdir(), 'tarepage-showroom-'));
  fs.cpSync(path.join(root, 'content'), path.join(dir, 'content'), { recursive: true });
  const unit = path.join(dir, 'content', 'units', 'sb-1043.md');
  const sound = fs.readFileSync(unit, 'utf8');
  const run = spawn(program, ['showroom', '-from', dir, '-at', '127.0.0.1:0'], { stdio: ['ignore', 'pipe', 'ignore'] });
  const url = await new Promise((told, failed) => {
    let said = '';
    run.on('exit', () => failed(new Error('the showroom ended: ' + said)));
    run.stdout.on('data', d => {
      said += d;
      const open = said.match(/^the showroom is open at (\S+)\n/);
      if (open) told(open[1]);
    });
  });
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  try {
    const { page } = await visit(context, url + 'u/sb-1043.html', 'showroom');
    const panel = page.locator('.room.panel');
    const waits = (what, f) => page.waitForFunction(f).then(() => check(true, what), e => check(false, `showroom: ${what}: ${e.message}`));
    const top = () => page.evaluate(() => scrollY);
    // The demo unit's own remarks and cautions are in a folded panel all the time.
    const height = await page.evaluate(() => document.documentElement.scrollHeight);
    for (const [i, part] of [.4, .8].entries()) {
      await page.evaluate(y => scrollTo(0, y), Math.round(height * part));
      const before = await top();
      check(before > 800, `showroom: the page is long enough to be scrolled: ${before}`);
      fs.writeFileSync(unit, sound + `\nSwept and washed ${i}.\n`);
      await page.getByText(`Swept and washed ${i}.`).waitFor({ state: 'attached' });
      // Answers that come when the page is idle may be a few pixels taller than the space for them.
      await page.waitForFunction(y => Math.abs(scrollY - y) < 10, before, { timeout: 5000 }).catch(() => {});
      check(Math.abs(await top() - before) < 10, `showroom: loaded again, the page is where it was: ${before}, then ${await top()}`);
    }

    // A stop: the page as it is, and over it what to fix and where.
    fs.writeFileSync(unit, sound.replace(/^stock: .*$/m, '$&\nstokc: x'));
    await panel.getByText('stokc').first().waitFor();
    check((await panel.textContent()).includes('content/units/sb-1043.md:4:1'), 'showroom: a stop is told with file and line');
    check(await page.locator('h1').count() === 1 && await page.locator('.tag').count() > 0, 'showroom: the page is below the findings');
    // Front matter that cannot be read: the last good page.
    fs.writeFileSync(unit, sound.replace('weights:', 'weights: ['));
    await panel.getByText('does not read as YAML').first().waitFor();
    check(/content\/units\/sb-1043\.md:\d+:\d+/.test(await panel.textContent()), 'showroom: what does not read is told with file and line');
    check((await page.locator('h1').textContent()).includes('gooseneck') && await page.locator('.tag').count() > 0, 'showroom: the last good page is below it');
    fs.writeFileSync(unit, sound);
    await page.waitForFunction(() => ![...document.querySelectorAll('body > div')].some(d => /sb-1043\.md:\d+:\d+.*(stokc|YAML)/s.test(d.shadowRoot?.textContent || '')) && document.querySelector('h1'))
      .then(() => check(true, 'fixed'), e => check(false, `showroom: a finding that was fixed is still shown: ${e.message}`));
    check(!(await panel.allTextContents()).join().includes('before'), 'showroom: fixed, the page is the new one');
    await page.close();

    // Markup in place of words, and in the name of a file.
    const spell = `'"><zqtag onzq=1><img src=x onerror=zqran=1><script>zqran=1</script>`;
    const quoted = `'${spell.replaceAll("'", "''")}'`;
    const hostile = sound.replace(/^serial: .*\n/m, '').replace(/^(title|make|color): .*$/mg, (_, k) => `${k}: ${quoted}`);
    fs.writeFileSync(path.join(dir, 'content', 'units', '<img src=x onerror=zqran=1>.md'), hostile.replace(/^stock: .*$/m, 'stock: ZQ-1').replace(/(oz|lb) \(tag\)/, `$1 (${spell.replace(/[()]/g, '')})`));
    fs.writeFileSync(path.join(dir, 'content', 'units', '<zqtag onzq=1>.md'), hostile.replace(/^stock: .*$/m, `stock: ${quoted}`).replace(/^kind: .*$/m, `kind: ${quoted}\n"<zqtag>": ${quoted}`));
    const { page: yard } = await visit(context, url, 'showroom: markup');
    await yard.locator('li', { hasText: 'ZQ-1' }).first().waitFor({ state: 'attached' });
    const harmless = async (page, what) => {
      const bad = await page.evaluate(() => {
        const roots = [document, ...[...document.querySelectorAll('*')].map(e => e.shadowRoot).filter(Boolean)];
        return [typeof window.zqran, ...roots.flatMap(r => [...r.querySelectorAll('zqtag, [onzq], [onerror], img[src="x"]')].map(e => e.outerHTML))];
      });
      check(bad.length === 1 && bad[0] === 'undefined', `showroom: ${what}: markup is words: ${bad}`);
    };
    await harmless(yard, 'the yard page');
    // The script draws the list again, with a unit that has markup for its stock number.
    const all = await yard.locator('.card').count();
    await yard.locator('#words').fill('onzq');
    await yard.waitForFunction(n => document.querySelectorAll('.card').length < n, all).then(() => check(true, 'found'), e => check(false, `showroom: a search for markup: ${e.message}`));
    check(await yard.locator('.card').count() >= 2, `showroom: a search finds the markup: ${await yard.locator('.card').count()} of ${all}`);
    await harmless(yard, 'a search');
    await yard.locator('button.pick[value="ZQ-1"]').first().click();
    await yard.locator('#words').fill('');
    await yard.locator('button.pick[value="SB-1043"]').first().click();
    await yard.locator('#do').click();
    await yard.locator('#back').waitFor();
    await harmless(yard, 'a comparison');
    // A missing page would also be reported in the console, so this one is read without a browser.
    const plain = await (await fetch(url + 'nowhere/%3Czqtag%20onzq=1%3E')).text();
    check(plain.includes('&lt;zqtag onzq=1&gt;') && !plain.includes('<zqtag'), 'showroom: markup in an address is words');
    for (const at of ['showroom/findings', 'u/zq-1.html', 'figures/zq-1.html', 'lot/zq-1.html', 'handover/zq-1.html', 'list.html']) {
      await yard.goto(url + at);
      await harmless(yard, at);
      if (at === 'showroom/findings') check((await yard.content()).includes('&lt;zqtag onzq=1&gt;.md'), 'showroom: the page of findings names the file as it is called');
    }
  } finally {
    await context.close();
    run.removeAllListeners('exit');
    run.kill();
    await new Promise(ended => run.exitCode !== null || run.signalCode ? ended() : run.on('exit', ended));
    fs.rmSync(dir, { recursive: true, force: true });
  }
}
