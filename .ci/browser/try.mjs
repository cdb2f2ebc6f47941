// A trailer's page as a customer uses it: a machine on its deck, a truck in front of it. Every
// step is a real click or key. The result is compared with what the page says without scripts
// and with the unit file, not with the script.
import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

export async function tryout(browser, { site, base, check, visit, axe, out }) {
  const file = path.join(site, 'u', 'sb-1043.html');
  if (!fs.existsSync(file) || !fs.readFileSync(file, 'utf8').includes('id="try"')) {
    check(false, 'try: the demo unit has nothing to try on');
    return;
  }
  await Promise.all([['from a folder', pathToFileURL(file).href], ['served', base + 'u/sb-1043.html']].map(async ([how, url]) => {
    const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
    const { page, asked } = await visit(context, url, `try ${how}`);
    const text = id => page.locator('#' + id).textContent();
    check(!asked.some(u => /statics-|machines-/.test(u)), `try ${how}: the statics wait until they are asked for`);

    // A common machine: the page's table says the same without scripts.
    await page.locator('#mine summary').click();
    await page.locator('#m-kind').waitFor();
    const row = page.locator('.try > table tr', { hasText: 'skid steer loader, medium frame' });
    const written = (await row.locator('td').textContent()).trim();
    await page.locator('#m-kind').selectOption({ label: 'skid steer loader, medium frame' });
    check((await text('mine-is')).includes(written.charAt(0).toLowerCase() + written.slice(1)) || (await text('mine-is')).includes(written), `try ${how}: the script says what the table says: ${await text('mine-is')} / ${written}`);
    check((await text('mine-is')).includes('within every limit'), `try ${how}: in the middle of its room it is within every limit`);
    check(await page.locator('svg[data-deck] .el-room').count() === 1, `try ${how}: the room is painted on the drawing`);
    // The field shows every weight and place. This machine is a point inside it, since it keeps every limit.
    const inside = () => page.evaluate(() => {
      const field = document.querySelector('#mine .el-room'), here = document.querySelector('#mine .el-here');
      return field.isPointInFill(new DOMPoint(here.cx.baseVal.value, here.cy.baseVal.value));
    });
    check(await inside() && / leaves [0-9,]+ lb/.test(await text('mine-is')), `try ${how}: the machine is a point inside the field: ${await text('mine-is')}`);

    // At the very front it exceeds a limit, and the row says by how much.
    const before = await page.locator('svg .el-load').getAttribute('x');
    await page.locator('#m-x').fill('28');
    check((await text('mine-is')).includes('over a limit') && await page.locator('#mine-table .over').count() > 0, `try ${how}: at the very end it is over a limit`);
    check(await page.locator('svg .el-load').getAttribute('x') !== before, `try ${how}: the machine moves on the drawing`);
    check(!(await inside()) && /too heavy|nothing of its length/.test(await text('mine-is')), `try ${how}: at the very end it is a point outside, and by how much: ${await text('mine-is')}`);
    // The keyboard moves the slider too.
    await page.locator('#mine-at input[type=range]').focus();
    await page.keyboard.press('Home');
    check(Number(await page.locator('#m-x').inputValue()) < 28, `try ${how}: the slide moves the number`);
    await page.locator('#m-w').fill('90000');
    check((await text('mine-is')).startsWith('Nowhere'), `try ${how}: a machine that is too heavy fits nowhere: ${await text('mine-is')}`);

    // Kilograms: one switch, the same machine.
    await page.locator('#m-w').fill('6600');
    const pounds = await text('mine-is');
    await page.locator('#mine .units').click();
    check(Math.abs(Number(await page.locator('#m-w').inputValue()) - 2993.71) < 0.01 && / m to /.test(await text('mine-is')), `try ${how}: in kilograms and meters: ${await text('mine-is')}`);
    await page.locator('#mine .units').click();
    check(await text('mine-is') === pounds, `try ${how}: and back again`);

    // The switch at the top changes every figure of the page at once and is remembered on this
    // page and every other. Text that keeps pounds and feet gives both.
    const shown = () => page.evaluate(() => document.querySelector('main').innerText + [...document.querySelectorAll('svg text')].map(t => t.textContent).join('\n'));
    // The classes of common machines are names and do not change: 14-15 ft class.
    const names = await page.locator('option').allTextContents();
    const left = text => text.split('\n').filter(l => !names.includes(l) && /\d[ \u00a0](lb|ft|in|psi)\b/.test(l) && !/\d (kg|mm?|kPa)\b/.test(l));
    const american = await shown();
    check(left(american).length > 60, `try ${how}: the page begins in pounds and feet`);
    await page.locator('.switch .units').click();
    check(left(await shown()).length === 0, `try ${how}: one switch turns every figure: ${left(await shown()).slice(0, 5).join(' | ')}`);
    check(/5,878 kg/i.test(await page.locator('.tag').innerText()), `try ${how}: the payload of 12,960 lb is 5,878 kg, down (NIST SP 811: 5,878.557)`);
    check(await page.evaluate(() => document.documentElement.scrollWidth) <= 390, `try ${how}: no sideways scroll in kilograms`);
    if (out) await page.screenshot({ path: path.join(out, `metric-${how.replace(/ /g, '-')}.png`), fullPage: true });
    for (const other of ['../figures/sb-1043.html', '../index.html', '../list.html']) {
      const also = await context.newPage();
      await also.goto(new URL(other, url).href);
      const text = await also.evaluate(() => document.querySelector('main').innerText);
      check(left(text).length === 0 && /\d kg/.test(text), `try ${how}: ${other} remembers the choice: ${left(text).slice(0, 5).join(' | ')}`);
      await also.close();
    }
    await page.locator('.switch .units').click();
    check(await shown() === american, `try ${how}: and back to the letter`);

    // The truck: the page does not say yes while a limit is missing.
    await page.locator('#mytruck summary').click();
    await page.locator('#t-gvwr').waitFor();
    for (const [id, v] of [['gvwr', '14,000'], ['weight', '8,200'], ['gcwr', '35,000']]) await page.locator('#t-' + id).fill(v);
    check(/Not checked, because the number is missing/.test(await text('truck-is')) && !/\byes\b/i.test(await text('truck-is')), `try ${how}: what is missing is named: ${await text('truck-is')}`);
    for (const [id, v] of [['rear', '9,900'], ['rearWeight', '3,400'], ['hitch', '30,000'], ['tongue', '7,500'], ['ball', '30,000'], ['base', '176'], ['behind', '-4']]) await page.locator('#t-' + id).fill(v);
    check(!/Not checked/.test(await text('truck-is')) && /within every (truck )?limit you gave/.test(await text('truck-is')), `try ${how}: the verdict with every limit: ${await text('truck-is')}`);
    check(/ask your state/.test(await text('truck-notes')), `try ${how}: the license sentence asks the state`);
    await page.locator('#t-ball').fill('5,000');
    check(/over the ball/.test(await text('truck-is')), `try ${how}: a small ball governs: ${await text('truck-is')}`);
    await page.locator('#truck-table tr a').first().click();
    check(await page.evaluate(() => location.hash) === '#t-ball', `try ${how}: the governing limit leads to its number`);
    await page.goBack();
    check(await page.evaluate(() => location.hash) === '', `try ${how}: Back goes back`);
    check(await page.evaluate(() => document.documentElement.scrollWidth) <= 390, `try ${how}: no sideways scroll`);
    if (out) await page.screenshot({ path: path.join(out, `try-${how.replace(/ /g, '-')}.png`), fullPage: true });
    if (axe) await axe(page, `try ${how}`);
    // It is kept on the phone, and deleted on request.
    await page.reload();
    await page.locator('#mytruck summary').click();
    await page.locator('#t-ball').waitFor();
    check(await page.locator('#t-ball').inputValue() === '5000', `try ${how}: the truck is kept on this phone`);
    await page.locator('#forget').click();
    check(await page.evaluate(() => localStorage.getItem('tarepage-truck')) === null, `try ${how}: and forgotten`);
    await context.close();
  }));
}
