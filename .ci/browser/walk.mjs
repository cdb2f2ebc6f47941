// The walk back with a phone: the code's link opens the list, a unit is confirmed line by line,
// what is typed survives a lost signal and a closed page, two phones that disagree see both
// values, and the file changes at the answered values only.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { spawn } from 'node:child_process';

const yard = `---
name: Quillfern Trailers
phone: 555-0117
as-of: 2026-11-20
---
`;
const heard = `---
# from the recording
title: 82 in x 18 ft equipment trailer
stock: SB-1050
kind: equipment  # said 0:02: "equipment trailer"
condition:  # new or used
availability: on the yard
price: $6,480  # asked at the desk
hitch:
  kind: bumper-pull
  ball: 2-5/16 in (said 0:09)  # "two and five sixteenths ball"
  rating: 14,000 lb (said 0:09)  # "coupler is rated fourteen thousand"
deck:
  length: 18 ft (said 0:02)
axles:
  count: 2 (said 0:20)
  rating: 5,200 lb (said 0:20)
tires:
  size: ST225/75R15 (said 0:31)
  load-range: D (said 0:31)
  per-axle:  # how many are on one axle: 2, or 4 for duals
weights:
  gvwr: 9,900 lb (said 0:40)  # "ninety-nine hundred pounds"
standard:
  - LED lights (said 0:44)  # "LED"
  - pinstriping (said 0:45)  # "Decals"
---

0:09 Coupler and ball.
`;

export async function walkBack(browser, { check, axe, out, program }) {
  const dir = fs.mkdtempSync(path.join(os.tmpdir(), 'tarepage-walk-'));
  const file = path.join(dir, 'content', 'units', 'sb-1050.md');
  fs.mkdirSync(path.dirname(file), { recursive: true });
  fs.writeFileSync(path.join(dir, 'content', 'yard.md'), yard);
  fs.writeFileSync(file, heard);
  const run = spawn(program, ['showroom', '-from', dir, '-at', ':0'], { stdio: ['ignore', 'pipe', 'ignore'] });
  const [desk, phone] = await new Promise((told, failed) => {
    let said = '';
    run.on('exit', () => failed(new Error('the showroom ended: ' + said)));
    run.stdout.on('data', d => {
      said += d;
      const here = said.match(/^the showroom is open at (\S+)\n/), there = said.match(/or open: (\S+)\n/);
      if (here && (there || said.includes('to end it'))) told([here[1], there && there[1]]);
    });
  });
  // A computer without a network has no address for phones; the desk's own page is the same.
  const first = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true });
  const second = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true });
  const has = text => fs.readFileSync(file, 'utf8').includes(text);
  const until = async (f, what) => {
    for (let i = 0; i < 150 && !await f(); i++) await new Promise(later => setTimeout(later, 100));
    check(await f(), 'walk back: ' + what);
  };
  try {
    if (phone) {
      const at = new URL(phone).origin;
      for (const p of ['/', '/showroom/findings', '/showroom/walk', '/showroom/walk/sb-1050', '/showroom/events']) {
        const r = await fetch(at + p, { redirect: 'manual' });
        check(r.status === 403 && !/SB-1050|stop/.test(await r.text()), `walk back: without the key ${p} shows nothing: ${r.status}`);
      }
    } else console.log('walk back: this computer has no address in a network; the key is not tried');
    // Not the tools' own page: a browser without a network complains in its console.
    const open = async context => {
      const page = await context.newPage();
      page.on('pageerror', e => check(false, `walk back: ${e}`));
      await page.goto(phone || desk + 'showroom/walk');
      return page;
    };
    const page = await open(first);
    check(!page.url().includes('key='), 'walk back: the key does not stay in the address');
    await page.screenshot({ path: path.join(out, 'walk-list.png') });
    await page.getByRole('button', { name: 'It was walked today' }).click();
    await until(() => /^as-of: 2/m.test(fs.readFileSync(path.join(dir, 'content', 'yard.md'), 'utf8')) && fs.existsSync(path.join(dir, 'earlier', 'yard.md')), 'the day of the walk is one tap');
    await page.getByRole('button', { name: 'It was walked today' }).waitFor({ state: 'detached' });
    await page.getByText('SB-1050').click();
    const line = (p, key) => p.locator(`article[data-key="${key}"]`);
    const heads = await page.locator('h2').allTextContents();
    check(heads.join() === 'The label,The coupler,The tires,The wheels,The axle tag,The deck,The scale,What it is,What comes with it,Price and sale,A note', `walk back: the order of the walk: ${heads}`);
    check(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), 'walk back: nothing is wider than the phone');
    await axe(page, 'walk back');
    await page.screenshot({ path: path.join(out, 'walk-unit.png'), fullPage: true });
    check(await line(page, 'weights.gvwr').getByText('ninety-nine hundred pounds').count() === 1, 'walk back: what was said is shown');
    check(await line(page, 'weights.gvwr').locator('input[name]').first().getAttribute('inputmode') === 'decimal', 'walk back: a weight has the keyboard of digits');

    // What anybody sees is asked first, with a button for each answer.
    const asked = page.locator('.ask');
    check((await asked.allTextContents()).join('|') === 'how many are on one axle: 2, or 4 for duals24, duals|new or usednewused', `walk back: the first questions: ${await asked.allTextContents()}`);
    await page.getByRole('button', { name: 'new', exact: true }).click();
    await until(() => has('condition: new  # new or used'), 'a question is answered with one tap');
    await page.getByRole('button', { name: 'used', exact: true }).waitFor({ state: 'hidden' });
    check(await page.getByRole('button', { name: '4, duals' }).isVisible(), 'walk back: the other question stays');

    // Same; then the tires, with the figure worked while somebody types.
    await line(page, 'weights.gvwr').getByRole('button', { name: 'Same' }).click();
    await until(() => has('gvwr: 9,900 lb (tag)  # "ninety-nine'), 'the same value is confirmed with its place');
    await line(page, 'axles.rating').getByRole('button', { name: 'Same' }).click();
    const named = page.locator('[data-station="tires"] .ticks li');
    check((await named.allTextContents()).join('|') === ' tires size ST225/75R15| tires load range D', `walk back: one tap names what it confirms: ${await named.allTextContents()}`);
    await named.nth(1).getByRole('checkbox').uncheck();
    await page.getByRole('button', { name: 'The one with a tick is the same on the sidewall' }).waitFor();
    await named.nth(1).getByRole('checkbox').check();
    await page.getByRole('button', { name: /^All 2 are the same on the sidewall$/ }).click();
    await until(() => has('size: ST225/75R15 (sidewall)') && has('load-range: D (sidewall)'), 'one tap confirms what is read at one place');
    await line(page, 'tires.per-axle').locator('input[name]').fill('2');
    const judged = page.locator('#judged');
    await until(async () => (await judged.textContent()).includes('the tires carry 5,080 lb; the axle is rated 5,200 lb'), 'a finding appears while somebody types');
    check(!has('per-axle: 2'), 'walk back: what is being typed is not in the file');
    await line(page, 'tires.per-axle').locator('input[name]').blur();
    await until(() => has('per-axle: 2  #'), 'a box that was left is saved');
    await page.getByRole('button', { name: '4, duals' }).waitFor({ state: 'hidden' });
    await line(page, 'tires.sidewall.single').locator('input[name]').fill('2830');
    await line(page, 'tires.sidewall.single').locator('input[name]').blur();
    await until(() => has('    single: 2,830 lb (sidewall)'), 'a key that is missing is added');
    await until(async () => !(await judged.textContent()).includes('the tires carry'), 'the finding goes with the sidewall');

    // Equipment that was heard is kept or struck.
    await line(page, 'standard.LED lights').getByRole('button', { name: 'Same' }).click();
    await until(() => has('  - LED lights  # "LED"'), 'equipment is kept with one tap');
    await line(page, 'standard.pinstriping').locator('select[name=value]').selectOption('take it off the list');
    await until(() => !has('pinstriping'), 'equipment that is not there is struck');

    // A photo proves what was read on the label.
    const gvwr = line(page, 'weights.gvwr');
    await gvwr.getByText('Photo of it').click();
    await gvwr.getByText('rating of each axle').click();
    await gvwr.locator('input[type=file]').setInputFiles(path.resolve(import.meta.dirname, '../../content/media/sb-1043-front.jpg'));
    await until(() => has('proof:\n  - file: media/sb-1050-tag-1.jpg\n    shows: label\n    proves: weights.gvwr, axles.rating\n'), 'a photo proves two values');
    check(fs.existsSync(path.join(dir, 'content', 'media', 'sb-1050-tag-1.jpg')), 'walk back: the photo is in media');
    await gvwr.getByText('Photographed').waitFor();

    // Signal lost: typed, the page closed and opened again, sent when the desk answers.
    await first.setOffline(true);
    await line(page, 'hitch.rating').locator('input[name]').first().fill('12500');
    await line(page, 'hitch.rating').locator('input[name]').first().blur();
    await line(page, 'hitch.rating').getByText('Kept on this phone.').waitFor();
    check((await page.locator('#sending').textContent()).includes('The desk does not answer'), 'walk back: the page says that the desk does not answer');
    check(!has('12,500'), 'walk back: offline, nothing is written');
    await first.setOffline(false);
    await until(() => has('rating: 12,500 lb (coupler plate)  # "coupler'), 'with the signal back it is sent');
    await line(page, 'weights.empty').locator('input[name]').first().fill('2640');
    await page.reload();
    check(await line(page, 'weights.empty').locator('input[name]').first().inputValue() === '2640', 'walk back: what was typed is there after a reload');
    await line(page, 'weights.empty').locator('select').selectOption('scale ticket');
    await line(page, 'weights.empty').locator('input[name=day]').fill('2026-11-18');
    await line(page, 'weights.empty').locator('input[name=day]').blur();
    await until(() => has('  empty: 2,640 lb (scale ticket 2026-11-18)'), 'a scale ticket has its day');

    await line(page, 'weights.empty').locator('input[name=day]').fill('2026-11-19');
    await line(page, 'weights.empty').locator('input[name=day]').blur();
    await until(() => has('  empty: 2,640 lb (scale ticket 2026-11-19)'), 'the day alone can be put right');

    // Two phones.
    const other = await open(second);
    await other.getByText('SB-1050').click();
    await first.setOffline(true);
    await line(page, 'deck.length').locator('input[name]').first().fill('17');
    await line(page, 'deck.length').locator('input[name]').nth(1).fill('6');
    await line(page, 'deck.length').locator('input[name]').nth(1).blur();
    // A person takes a while between the feet and the inches. Neither is written alone.
    await line(other, 'deck.length').locator('input[name]').first().fill('18');
    await line(other, 'deck.length').locator('input[name]').nth(1).focus();
    await other.waitForTimeout(1500);
    check(has('length: 18 ft (said'), 'walk back: feet are not sent while the inches are typed');
    await line(other, 'deck.length').locator('input[name]').nth(1).fill('2');
    await line(other, 'deck.length').locator('input[name]').nth(1).blur();
    await until(() => has('length: 18 ft 2 in (tape)'), 'the second phone writes');
    await line(other, 'deck.length').locator('input[name]').nth(1).fill('3');
    await line(other, 'deck.length').locator('input[name]').nth(1).blur();
    await until(() => has('length: 18 ft 3 in (tape)'), 'other inches keep the feet');
    await line(other, 'deck.length').locator('input[name]').nth(1).fill('2');
    await line(other, 'deck.length').locator('input[name]').nth(1).blur();
    await until(() => has('length: 18 ft 2 in (tape)'), 'and the second phone writes again');
    await first.setOffline(false);
    await line(page, 'deck.length').getByText('Somebody else changed this').waitFor();
    check(has('length: 18 ft 2 in (tape)'), 'walk back: a conflict writes nothing');
    check(await line(page, 'deck.length').getByText('Keep 18 ft 2 in (tape)').count() === 1, 'walk back: a conflict shows both');
    await page.screenshot({ path: path.join(out, 'walk-conflict.png') });
    await line(page, 'deck.length').getByText('Write 17 ft 6 in (tape)').click();
    await until(() => has('length: 17 ft 6 in (tape)'), 'the one that counts is written');
    await until(async () => (await line(other, 'deck.length').textContent()).includes('17 ft 6 in'), 'the other phone is told');

    // What nobody can read, a price, a sale, a note.
    await line(page, 'hitch.ball').getByRole('button', { name: 'Cannot be read' }).click();
    await line(page, 'hitch.ball').getByRole('button', { name: 'Write that' }).click();
    await until(() => has('ball: "unknown: the plate cannot be read"  # "two'), 'what cannot be read says so');
    const today = new Date(Date.now() - new Date().getTimezoneOffset() * 60000).toISOString().slice(0, 10);
    await line(page, 'price').locator('input[name]').fill('6,280');
    await line(page, 'price').locator('input[name]').blur();
    await until(() => has(`price: $6,280 (since ${today})  # asked at the desk`), 'a price is one edit, with its day');
    await line(page, 'availability').locator('select').selectOption('sold');
    await until(() => has(`availability: sold (since ${today})`), 'a sale is one edit, with its day');
    await page.locator('textarea').fill('Two <b>new</b> tires');
    await page.getByRole('button', { name: 'Add the note' }).click();
    await until(() => has('\nTwo \\<b\\>new\\</b\\> tires\n'), 'a note is words at the end');
    check(fs.readFileSync(path.join(dir, 'earlier', 'sb-1050.md'), 'utf8') === heard, 'walk back: the file as it was is kept outside content/');
    // Everything that nobody answered is as it was.
    const left = s => s.split('\n').filter(l => /^#|title|stock|kind|0:09 /.test(l)).join('\n');
    check(left(fs.readFileSync(file, 'utf8')) === left(heard), 'walk back: the rest of the file is as it was');
    await page.waitForTimeout(300);
    await page.screenshot({ path: path.join(out, 'walk-done.png'), fullPage: true });
  } finally {
    await first.close();
    await second.close();
    run.removeAllListeners('exit');
    run.kill();
    await new Promise(ended => run.exitCode !== null || run.signalCode ? ended() : run.on('exit', ended));
    fs.rmSync(dir, { recursive: true, force: true });
  }
}
