// A trailer's page as a customer uses it: a machine and a truck of their own, the machine dragged
// along the deck, and what they brought sent to somebody at home. Every step is a real click,
// key or drag. The result is compared with the unit file, not with the script.
import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { long } from './pages.mjs';

export async function tryout(browser, { site, base, check, visit, axe, out }) {
  const file = path.join(site, 'u', 'sb-1043.html');
  if (!fs.existsSync(file) || !fs.readFileSync(file, 'utf8').includes('id="try"')) {
    check(false, 'try: the demo unit has nothing to try on');
    return;
  }
  await hurried(browser, { base, check, visit });
  await doubtful(browser, { base, check, visit });
  await Promise.all([['from a folder', pathToFileURL(file).href], ['served', base + 'u/sb-1043.html']].map(async ([how, url]) => {
    const context = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true });
    const { page } = await visit(context, url, `try ${how}`);
    const text = async id => (await page.locator('#' + id).innerText()).replace(/\s+/g, ' ').trim();
    // The page's own clock is later than its timers, and a frame was drawn: a busy machine takes longer.
    const settle = () => page.evaluate(() => new Promise(done => setTimeout(() => requestAnimationFrame(() => requestAnimationFrame(done)), 250)));

    // A class of machines fills in its length, and never a weight that nobody typed. Each field says what
    // it understood.
    await page.locator('#mine .change').click();
    await page.locator('#m-k').selectOption({ label: 'compact track loader, medium' });
    await settle();
    check((await text('mine-is')).startsWith("CANNOT SAY YET: it needs the machine's weight"), `try ${how}: a class alone is not an answer: ${await text('mine-is')}`);
    await page.locator('#m-w').fill('9,500');
    await page.locator('#m-l').fill('11 ft 6 in');
    await settle();
    check((await text('mine-is')).startsWith('YES') && /front of the bucket .* behind the front of the deck/.test(await text('mine-is')), `try ${how}: it carries the track loader: ${await text('mine-is')}`);
    // Another class fills what the first one filled, and the line under the field follows; what was
    // typed by hand stays. What is far outside the class is questioned.
    await page.locator('#m-l').fill('');
    await page.locator('#m-k').selectOption({ label: 'compact track loader, small' });
    await settle();
    check(await page.locator('#m-l').inputValue() === '11 ft' && await text('m-l-is') === '11 ft', `try ${how}: another class fills its length: ${await text('m-l-is')}`);
    await page.locator('#m-w').focus();
    await page.locator('#m-l').focus();
    await page.keyboard.type('11 ft 2 in');
    check(await page.locator('#m-l').inputValue() === '11 ft 2 in', `try ${how}: what is typed takes the place of what was there: ${await page.locator('#m-l').inputValue()}`);
    await page.locator('#m-k').selectOption({ label: 'compact track loader, medium' });
    await settle();
    check(await page.locator('#m-w').inputValue() === '9,500' && await text('m-w-is') === '9,500 lb' && (await text('mine')).includes('9,500 lb'), `try ${how}: a class leaves a typed weight alone: ${await page.locator('#m-w').inputValue()}`);
    for (const [id, v, ask] of [['w', '95', 'is it really 95 lb?'], ['w', '4309', 'is it really 4,309 lb?'], ['l', '11 in', 'is it really 11 in long?'], ['s', '8', 'is it really 8 in wide?'], ['h', '108', 'is it really 108 ft high?']]) {
      const was = await page.locator('#m-' + id).inputValue();
      await page.locator('#m-' + id).fill(v);
      await settle();
      check((await text('mine-is')).startsWith('CANNOT SAY YET: ' + ask) && !(await text('deck-is')).includes('Every limit'), `try ${how}: ${v} is questioned: ${await text('mine-is')}`);
      check(await page.locator('#m-y').isVisible(), `try ${how}: and it can be said to be right`);
      await page.locator('#m-' + id).fill(was);
    }
    await settle();
    check(!await page.locator('#m-y').isVisible(), `try ${how}: what is usual is not asked about`);
    await page.locator('#m-w').fill('6500');
    await settle();
    await page.locator('#m-y').check();
    await settle();
    check((await text('mine-is')).startsWith('YES'), `try ${how}: what was said to be right is taken: ${await text('mine-is')}`);
    await page.locator('#m-w').fill('4.5k kg');
    await settle();
    check(/9,9[12][0-9](\.[0-9])? lb/.test(await text('m-w-is')), `try ${how}: 4.5k kg is echoed in pounds (NIST SP 811): ${await text('m-w-is')}`);
    for (const wrong of ['abc', '-5', '11,5']) {
      await page.locator('#m-w').fill(wrong);
      await settle();
      check(await page.locator('#m-w').getAttribute('aria-invalid') === 'true' && (await text('m-w-is')) !== '' && (await text('mine-is')).startsWith('CANNOT SAY YET: Weight: '), `try ${how}: ${wrong} is refused by name in place of the answer: ${await text('mine-is')}`);
    }
    await page.locator('#m-w').fill('5 ton');
    await settle();
    await page.locator('#m-w-is button').first().click();
    await settle();
    check(await page.locator('#m-w').inputValue() === '10,000 lb' && (await text('mine-is')).startsWith('YES'), `try ${how}: a ton is asked about: ${await page.locator('#m-w').inputValue()}`);
    await page.locator('#m-w').fill('90,000');
    await settle();
    check((await text('mine-is')).startsWith('NO'), `try ${how}: 90,000 lb is over: ${await text('mine-is')}`);
    await page.locator('#m-w').fill('9,500');
    await settle();
    // A machine that is an inch wider than the deck of 102 in: the words, the list of loads and the deck say NO.
    await page.locator('#m-s').fill('103');
    await settle();
    check((await text('mine-is')).startsWith('NO: the clear width of its deck, 1 in over.') && /NO: the clear width/.test(await text('deck-is')) && await page.locator('.strip.bad').count() === 1, `try ${how}: a machine that is too wide: ${await text('mine-is')} ${await text('deck-is')}`);
    await page.locator('#m-s').fill('');
    await settle();
    check((await text('mine-is')).startsWith('YES'), `try ${how}: without a typed width the class's counts: ${await text('mine-is')}`);
    if (axe) await axe(page, `try ${how}, machine`);

    // Dragged to the rear end it breaks a limit; the best place keeps every one.
    const grab = page.locator('.grab').first(), now = async () => Number(await grab.getAttribute('aria-valuenow'));
    await grab.scrollIntoViewIfNeeded();
    const best = await now(), is = await grab.boundingBox();
    await page.mouse.move(is.x + is.width / 2, is.y + is.height / 2);
    await page.mouse.down();
    await page.mouse.move(is.x + is.width / 2 + 400, is.y + is.height / 2, { steps: 8 });
    await page.mouse.up();
    await settle();
    check(await now() > best + 100 && /Too little weight on the tongue: [0-9,]+ lb short/.test(await text('deck-is')) && !/the least that should be/.test(await text('deck-is')) && await page.locator('.grab.bad').count() === 1, `try ${how}: dragged to the end it is over a limit: ${await text('deck-is')}`);
    await page.locator('#best').click();
    await settle();
    check(await now() === best && (await text('deck-is')).includes('Every limit on file is kept'), `try ${how}: the best place is one tap: ${await text('deck-is')}`);
    await grab.focus();
    await page.keyboard.press('ArrowRight');
    await settle();
    check(await now() === best + 1, `try ${how}: an arrow key moves it by an inch`);

    // Whether scripts and data load is all that differs from a folder on disk; the nightly checks
    // go on there too.
    if (how !== 'served' && !long) {
      await context.close();
      return;
    }

    // The way up: 100 x tan(21.4 / 2 degrees) / 2 is 9.45 in, 40 x tan 21.4 degrees is 15.68 in (SAE J1100, from memory).
    await page.locator('#mine-form details summary').click();
    for (const [id, v] of [['b', '100 in'], ['c', '6 in'], ['o', '40 in'], ['u', '20 in']]) await page.locator('#m-' + id).fill(v);
    await settle();
    check(/drags where the way up meets the deck: its belly needs 9-1\/2 in and has 6 in/.test(await text('climb')) && /its end needs 1 ft 3-3\/4 in and has 1 ft 8 in/.test(await text('climb')), `try ${how}: it drags at the crest and not at the foot: ${await text('climb')}`);
    check((await text('mine-is')).startsWith('NO: it drags'), `try ${how}: what drags is not carried: ${await text('mine-is')}`);
    await page.locator('#m-c').fill('10 in');
    await settle();
    // A second machine has a handle of its own, and its weight counts.
    const before = await text('deck-is');
    await page.locator('#second .change').click();
    await page.locator('#n-w').fill('1,500');
    await page.locator('#n-l').fill('5 ft');
    await settle();
    check(await page.locator('.grab:visible').count() === 2 && await text('deck-is') !== before, `try ${how}: two machines are on the deck: ${await text('deck-is')}`);
    const two = page.locator('.grab').nth(1), from = await two.getAttribute('aria-valuenow');
    await two.scrollIntoViewIfNeeded();
    const it = await two.boundingBox(), other = await grab.boundingBox();
    await page.mouse.move(it.x + it.width / 2, it.y + it.height / 2);
    await page.mouse.down();
    await page.mouse.move(other.x + other.width / 2, it.y + it.height / 2, { steps: 6 });
    await page.mouse.up();
    await settle();
    check(await two.getAttribute('aria-valuenow') !== from && (await text('deck-is')).includes('They overlap'), `try ${how}: dragged onto the first they overlap: ${await text('deck-is')}`);
    if (axe) await axe(page, `try ${how}, two machines`);
    // And a third.
    await page.locator('#third .change').click();
    await page.locator('#o-w').fill('900');
    await page.locator('#o-l').fill('4 ft');
    await settle();
    check(await page.locator('.grab:visible').count() === 3 && await page.locator('#fourth').isVisible(), `try ${how}: three machines are on the deck, and there may be a fourth`);
    await page.locator('#third-form .turn button').click();
    await settle();
    await page.locator('#second-form .turn button').click();
    await settle();
    check(await page.locator('.grab:visible').count() === 1, `try ${how}: the second is forgotten`);

    // The truck: CANNOT SAY YET names what is missing; YES needs every number.
    await page.locator('#mytruck .change').click();
    await page.locator('#t-gvwr').press('Enter');
    check(await page.evaluate(() => document.activeElement.id) === 't-sticker', `try ${how}: the phone's next key goes to the next field`);
    await page.locator('#t-kind').selectOption('gooseneck');
    for (const [id, v] of [['gvwr', '14,000'], ['sticker', '5,200'], ['people', '400'], ['tow', '20,000'], ['hitch', '30,000'], ['tongue', '7,500']]) await page.locator('#t-' + id).fill(v);
    await settle();
    check((await text('truck-is')).startsWith('CANNOT SAY YET') && /ball/.test(await text('truck-is')), `try ${how}: the ball is missing: ${await text('truck-is')}`);
    await page.locator('#t-ball').fill('30,000');
    await page.locator('#t-size').fill('2 5/16');
    await settle();
    check((await text('truck-is')).startsWith('YES') && /rear axle was not checked/.test(await text('truck-notes')), `try ${how}: with the ball it is YES: ${await text('truck-is')}`);
    // The truck gets no YES for a load that breaks a limit of the trailer where it is.
    await grab.focus();
    for (const by of ['Home', 'End']) {
      await page.keyboard.press(by);
      await settle();
      check(await page.locator('.grab.bad:visible').count() === 1 && (await text('truck-is')).startsWith('NO') && /Move it (forward|back) first/.test(await text('truck-notes')), `try ${how}: ${by} breaks a limit of the trailer, and the truck gets no YES: ${await text('truck-is')}`);
    }
    check(/too little weight on the tongue, [0-9,]+ lb short/.test(await text('truck-is')), `try ${how}: at the rear the tongue is too light: ${await text('truck-is')}`);
    await page.locator('#best').click();
    await settle();
    check((await text('truck-is')).startsWith('YES'), `try ${how}: at the best place the truck is YES again: ${await text('truck-is')}`);
    await page.locator('#t-kind').selectOption('receiver');
    await settle();
    check((await text('truck-is')).startsWith('NO'), `try ${how}: a receiver pulls no gooseneck: ${await text('truck-is')}`);
    await page.locator('#t-kind').selectOption('gooseneck');
    await settle();
    check(/Class A/.test(await text('truck-notes')) && /with 9,500 lb/.test(await text('truck-is')), `try ${how}: the license counts the truck, and the truck the machine: ${await text('truck-notes')}`);
    // A barn: NO as soon as the door is too narrow, whatever else nobody measured.
    await page.locator('#barn .change').click();
    await page.locator('#b-wide').fill('8 ft');
    await settle();
    check((await text('barn-is')).startsWith('NO: the width of your door, 6 in over'), `try ${how}: a door of 8 ft: ${await text('barn-is')}`);
    await page.locator('#b-wide').fill('10 ft');
    await settle();
    check((await text('barn-is')).startsWith('CANNOT SAY YET'), `try ${how}: the height and the depth are not typed: ${await text('barn-is')}`);
    await page.locator('#barn .turn button').click();
    await page.locator('#barn .change').click();
    check(await page.evaluate(() => document.documentElement.scrollWidth) <= 390, `try ${how}: no sideways scroll`);
    if (axe) await axe(page, `try ${how}, truck`);
    if (out) await page.screenshot({ path: path.join(out, `try-${how.replace(/ /g, '-')}.png`), fullPage: true });

    // The switch at the top turns every figure and back, and the answer stays.
    const shown = () => page.evaluate(() => ['.tag', '#mine-is', '#truck-is', '.feet', '.firsts'].map(s => document.querySelector(s).innerText).join(' '));
    const american = await shown();
    await page.locator('.switch .units').click();
    check(/5,878 kg/.test(await page.locator('.tag').innerText()), `try ${how}: the payload of 12,960 lb is 5,878 kg, down (NIST SP 811: 5,878.557)`);
    check(/kg/.test(await page.locator('.feet').innerText()), `try ${how}: the loads turn to kilograms`);
    check(await page.evaluate(() => document.documentElement.scrollWidth) <= 390, `try ${how}: no sideways scroll in kilograms`);
    await page.locator('.switch .units').click();
    check(await shown() === american, `try ${how}: and back`);

    // Sent to somebody at home: the same answer, from the address alone. Share gives it.
    const sent = await page.evaluate(() => window.Bring.address());
    const home = await browser.newContext({ viewport: { width: 390, height: 844 } });
    const there = (await visit(home, sent, `try ${how}, at home`)).page;
    await there.locator('#truck-is b').waitFor();
    check((await there.locator('#truck-is').innerText()).startsWith('YES') && (await there.locator('#mine .what span').innerText()).includes('9,500 lb'), `try ${how}: the address carries the machine and the truck`);
    await home.close();
    await page.evaluate(() => { navigator.share = async what => { window.sent = what; }; });
    await page.locator('#share').click();
    check(await page.evaluate(() => window.sent?.url) === sent, `try ${how}: Share hands over this address`);

    // It is kept on the phone, and deleted on request.
    await page.goto(url);
    await page.reload();
    await page.locator('#truck-is b').waitFor();
    check((await text('truck-is')).startsWith('YES'), `try ${how}: the truck is kept on this phone`);
    await page.locator('#mytruck .change').click();
    await page.locator('#truck-form .turn button').click();
    check(await page.evaluate(() => localStorage.getItem('tarepage-truck')) === null, `try ${how}: and forgotten`);
    await context.close();
  }));
}

// A customer taps before the calculators came: the tap waits for them, and they come once.
async function hurried(browser, { base, check, visit }) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const came = [];
  await context.route(/bring[^/]*\.js/, async route => {
    came.push(route.request().url());
    await new Promise(done => setTimeout(done, 800));
    await route.continue();
  });
  // A tap that comes before the page's own script is kept too.
  await context.route(/unit-[^/]*\.js/, async route => {
    await new Promise(done => setTimeout(done, 800));
    await route.continue();
  });
  const early = await context.newPage();
  await early.goto(base + 'u/sb-1043.html', { waitUntil: 'commit' });
  await early.locator('#mytruck .change').click();
  await early.locator('#t-kind').waitFor({ timeout: 10000 }).catch(() => {});
  check(await early.locator('#t-kind').isVisible(), 'try in a hurry: a tap before the script opens the ticket later');
  await early.close();
  came.length = 0;
  const { page } = await visit(context, base + 'u/sb-1043.html', 'try in a hurry');
  await page.evaluate(() => {
    for (const id of ['mine', 'mytruck']) document.querySelector(`#${id} .change`).click();
  });
  await page.locator('#m-k').waitFor();
  await page.locator('#t-kind').waitFor();
  check(came.length === 1, `try in a hurry: the calculators come once: ${came}`);
  await context.close();
}

// A machine whose center is not known well enough, in front of a truck whose hitch takes less than the
// trailer's best place puts on it: the words below the deck follow the answer, and the best place keeps
// the truck's 1,400 lb. The silhouette is as long as the machine: its path fills its handle.
async function doubtful(browser, { base, check, visit }) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true });
  const brings = { m: { w: 9500, l: 132, s: 70 }, t: { kind: 'receiver', gvwr: 10000, sticker: 2200, people: 450, tow: 14000, hitch: 14000, tongue: 1400, ball: 14000, size: 2.3125 } };
  const { page } = await visit(context, base + 'u/sb-1034.html#bring=' + encodeURIComponent(JSON.stringify(brings)), 'try in doubt');
  await page.locator('#truck-is b').waitFor();
  await page.waitForFunction(() => document.querySelector('#deck-is')?.textContent);
  const text = async id => (await page.locator(id).innerText()).replace(/\s+/g, ' ').trim();
  check((await text('#mine-is')).startsWith('CANNOT SAY YET') && (await text('#truck-is')).startsWith('CANNOT SAY YET') && /so weigh the tongue\.$/.test(await text('#deck-is')), `try in doubt: the deck follows the answer: ${await text('#mine-is')} ${await text('#deck-is')}`);
  check(Number(/On the hitch ([0-9,]+) lb/.exec(await text('.feet'))[1].replace(',', '')) <= 1400, `try in doubt: the best place keeps what the truck takes: ${await text('.feet')}`);
  const drawn = await page.locator('.grab').first().evaluate(g => g.querySelector('path').getBoundingClientRect().width / g.getBoundingClientRect().width);
  check(Math.abs(drawn - 1) < 0.02, `try in doubt: the machine is drawn as long as it is: ${drawn}`);
  for (let i = 0; i < 3; i++) await page.getByRole('button', { name: 'Forward' }).click();
  await page.waitForFunction(() => /Your truck says NO here: /.test(document.querySelector('#deck-is').textContent)).catch(() => {});
  check(/Your truck says NO here: the hitch's tongue rating, [0-9]+ lb over\.$/.test(await text('#deck-is')) && await page.locator('.feet .bad').count() === 1, `try in doubt: farther forward the truck says NO: ${await text('#deck-is')}`);
  await page.locator('#barn').click({ position: { x: 150, y: 70 } });
  check(await page.locator('#b-wide').isVisible(), 'try in doubt: a tap on the ticket opens it');
  await context.close();
}
