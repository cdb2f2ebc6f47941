// The yard page as a customer uses it: chips, words, my machine, my truck, comparing.
// Every step is a real click or key. The expected result is read from the list of the demo
// yard, not from the script.
import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { long } from './pages.mjs';

export async function find(browser, { site, base, check, visit, spacing, axe, out }) {
  const html = fs.readFileSync(path.join(site, 'index.html'), 'utf8');
  const all = (html.match(/<li class="card/g) || []).length - 1; // one is the template
  if (!html.includes('id="find"') || all < 10) {
    check(false, 'find: the demo yard has no yard page to search on');
    return;
  }
  // Two ways to open it: from a folder on disk, which is like a host's root, and below a path.
  await Promise.all([['from a folder', pathToFileURL(path.join(site, 'index.html')).href], ['served', base + 'index.html']].map(async ([how, url]) => {
    const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
    const { page, asked } = await visit(context, url, `find ${how}`);
    const cards = () => page.locator('.card > a').allTextContents();
    const count = () => page.locator('#count').textContent();
    // The page has done what a click or a key asks for: its own clock is later than its timers,
    // and a frame was drawn. On a busy machine both take longer, so this waits as long.
    const settled = () => page.evaluate(() => new Promise(done => setTimeout(() => requestAnimationFrame(() => requestAnimationFrame(done)), 400)));
    // What a card says, and of what elements it is made. Units may be marked on either side.
    const told = () => page.locator('#cards > li').evaluateAll(list => list.map(c => [c.textContent, c.className, c.querySelector('a').href,
      [...c.querySelectorAll('*:not(data)')].map(e => e.localName + '.' + e.getAttribute('class')).join(' ')].join('|')));
    const written = await told();

    // The chip of a kind, and Back.
    await page.locator('.chip[data-v="dump"]').click();
    await settled();
    const dumps = Number(await page.locator('.chip[data-v="dump"]').getAttribute('data-n'));
    check(dumps > 0 && (await cards()).length === dumps && (await cards()).every(t => /dump/i.test(t)), `find ${how}: the chip shows the dumps alone: ${await cards()}`);
    check((await page.evaluate(() => location.hash)) === '#kind=dump', `find ${how}: the address says what is asked for`);
    check((await count()).startsWith(`${dumps} trailer`), `find ${how}: the count is said: ${await count()}`);
    check((await page.locator('#count').getAttribute('role')) === 'status', `find ${how}: the count is a status`);
    await page.goBack();
    await settled();
    check((await cards()).length === all, `find ${how}: Back shows all again`);
    // Cards that the script makes say what the page's own cards say, in either units.
    const remade = async () => {
      await page.locator('.chip[data-v="dump"]').click();
      await settled();
      await page.goBack();
      await settled();
      return told();
    };
    const differs = (a, b) => a.findIndex((t, i) => t !== b[i]);
    const again = await remade();
    check(again.length === written.length && differs(again, written) < 0, `find ${how}: the script makes the cards that the page has: ${again[differs(again, written)]} / ${written[differs(again, written)]}`);
    await page.locator('.switch .units').click();
    await settled();
    const metric = await remade();
    check(metric.length === all && metric.every(t => /May carry (about )?[0-9,]+ kg/.test(t) && !/\d (lb|ft|in)\b/.test(t.split('|')[0])), `find ${how}: cards in kilograms and meters: ${metric.find(t => / lb/.test(t))}`);
    await page.locator('.switch .units').click();
    await settled();
    // A pressed Compare button can be read, in the light and in the dark.
    await page.locator('.pick').first().click();
    for (const colorScheme of ['light', 'dark']) {
      await page.emulateMedia({ colorScheme });
      const [ink, ground] = await page.locator('.pick').first().evaluate(e => [getComputedStyle(e).color, getComputedStyle(e).backgroundColor]);
      check(ink !== ground && !/, 0\)$/.test(ground), `find ${how}: a pressed Compare button in ${colorScheme}: ${ink} on ${ground}`);
    }
    await page.emulateMedia({ colorScheme: 'light' });
    await page.locator('.pick').first().click();
    await settled();
    // Text at 200% leaves the yard's name readable, and a long name does not fill the screen.
    const header = () => page.evaluate(() => document.querySelector('.top').getBoundingClientRect().height);
    await page.evaluate(() => { document.documentElement.style.fontSize = '200%'; });
    check(await header() < 300, `find ${how}: the header at 200% text is ${await header()} px high`);
    await page.evaluate(() => { document.documentElement.style.fontSize = ''; });
    await page.setViewportSize({ width: 320, height: 844 });
    await page.evaluate(() => { document.querySelector('.yard-name').textContent = 'The Very Long Name of a Yard for Trailers of Every Kind, Somewhere'; });
    check(await header() < 180, `find ${how}: the header of a yard with a long name is ${await header()} px high`);
    await page.setViewportSize({ width: 390, height: 844 });

    // Two taps before a frame is drawn: both count, and one Back undoes both.
    await page.evaluate(() => ['equipment', 'dump'].forEach(v => document.querySelector(`.chip[data-v="${v}"]`).click()));
    check(await page.locator('.chip[data-f="kind"][aria-pressed="true"]').count() === 2, `find ${how}: a pressed chip says so at once`);
    await settled();
    check((await page.evaluate(() => location.hash)) === '#kind=equipment,dump' && (await cards()).some(t => /dump/i.test(t)) && (await cards()).some(t => /equipment/i.test(t)), `find ${how}: two quick taps both count: ${await cards()}`);
    await page.goBack();
    await settled();
    check((await page.evaluate(() => location.hash)) === '' && (await cards()).length === all, `find ${how}: one Back takes both away`);

    // Chips for the hitch, and for a length that none of the trailers has.
    await page.locator('#needs summary').click();
    await page.locator('.chip[data-f="hitch"][data-v="gooseneck"]').click();
    await page.locator('.chip[data-v="dump"]').click();
    await settled();
    check((await cards()).length === 0 && (await page.locator('.empty').textContent()).includes('Without'), `find ${how}: an empty result says what to give up: ${await page.locator('#cards').textContent()}`);
    await page.locator('.empty .drop').click();
    await settled();
    check((await cards()).length > 0, `find ${how}: giving it up finds some`);
    await page.locator('#picked .drop').last().click();
    await settled();

    // Payload at least.
    await page.locator('#load').fill('10,000');
    await settled();
    const loads = await page.locator('.numbers b').allTextContents();
    check(loads.length > 0 && loads.every(t => Number(t.replace(/[^0-9]/g, '')) >= 10000), `find ${how}: payload at least 10,000 lb: ${loads}`);
    await page.locator('#load').fill('');
    await settled();

    // Words, one with a typing mistake. The search is loaded when somebody asks for it.
    check(!asked.some(u => /search-|words-|serials-|details|days-/.test(u)), `find ${how}: the search waits until it is asked for`);
    // The calculators come when the page is idle, before a form asks for them.
    await page.waitForFunction(() => window.Statics);
    await page.locator('#words').fill('goosneck');
    await settled();
    await page.waitForFunction(n => document.querySelectorAll('.card').length < n, all);
    check(asked.some(u => u.includes('/s/search-')) && (await cards()).some(t => /gooseneck/.test(t)), `find ${how}: words find: ${await cards()}`);
    await page.locator('#words').fill('SB-1043');
    await settled();
    check((await page.locator('.state').first().textContent()).includes('SB-1043'), `find ${how}: a stock number finds its trailer`);
    // What is in the specs is found however it is written, and exactly the trailers that have it:
    // the expected ones are read from the files of the stock, which another part of the program
    // writes. A stock number goes without its hyphen, a serial with its last six digits.
    const stock = JSON.parse(fs.readFileSync(path.join(site, 'stock.json'), 'utf8')).units;
    const spec = (u, key) => u.stated[key]?.text ?? u.stated[key]?.value ?? '';
    const some = stock.find(u => /^0J9/.test(u.serial ?? ''));
    const having = of => stock.filter(of).map(u => u.stock).sort().join(' ');
    for (const [query, want] of [
      ['electric brakes', having(u => /electric/.test(spec(u, 'brakes.kind')))],
      ['2 5/16', having(u => /2-5\/16/.test(spec(u, 'hitch.ball')))],
      ['2-5/16\" ball', having(u => /2-5\/16/.test(spec(u, 'hitch.ball')))],
      ['7000 lb axles', having(u => /7,000 lb/.test(spec(u, 'axles.rating')))],
      ['axles 7k', having(u => /7,000 lb/.test(spec(u, 'axles.rating')))],
      [some.stock.toLowerCase().replace('-', ''), some.stock], [some.serial, some.stock], [some.serial.slice(-6), some.stock],
    ]) {
      await page.locator('#words').fill(query);
      await settled();
      // One screen of them is in the page; the count is of all.
      const n = want.split(' ').length;
      await page.waitForFunction(([n, all]) => document.querySelector('#count').textContent.startsWith(n + ' trailer') && document.querySelectorAll('.card').length === Math.min(n, all), [n, all], { timeout: 5000 }).catch(() => {});
      const found = await page.locator('.card .stock').allTextContents();
      check(want !== '' && (await count()).startsWith(n + ' trailer') && found.length === Math.min(n, all) && found.every(s => want.split(' ').includes(s)), `find ${how}: "${query}" finds ${await count()} ${found}, not ${want}`);
    }
    // A price and a weight among the words: what is at most that much and carries that much. The
    // list says what it read.
    // A size as people say it; a word that nothing has; and a machine that somebody asks with.
    await page.locator('#words').fill('7x14 dump');
    await settled();
    check((await cards()).length > 0 && (await cards()).every(t => /8[1-7] in x 14 ft .*dump/.test(t)), `find ${how}: 7x14 dump: ${await cards()}`);
    await page.locator('#words').fill('zebra dump');
    await settled();
    await page.waitForFunction(() => /Nothing here has zebra/.test(document.querySelector('#cards').textContent)).catch(() => {});
    check(/Nothing here has zebra\./.test(await page.locator('#cards').innerText()), `find ${how}: the word that nothing has is named: ${await page.locator('#cards').innerText()}`);
    await page.locator('#words').fill('9500 lb 11 ft');
    await settled();
    check(/Is that your machine\? carries my machine, 9,500 lb, 11 ft/.test((await page.locator('#cards').innerText()).replace(/\s+/g, ' ')), `find ${how}: a weight and a length may be a machine: ${await page.locator('#cards').innerText()}`);
    await page.locator('#words').fill('under $10,000 7,000 lb');
    await settled();
    const cheap = (await page.locator('.card').evaluateAll(list => list.map(c => ['.price', '.carries b'].map(s => Number(c.querySelector(s).textContent.replace(/[^0-9.]/g, ''))))));
    check(cheap.length > 0 && cheap.every(([price, carries]) => price > 0 && price <= 10000 && carries >= 7000), `find ${how}: under $10,000 and 7,000 lb: ${cheap}`);
    check(/\$10,000 or less, payload 7,000 lb or more/.test(await page.locator('#picked').textContent()), `find ${how}: it says what it read: ${await page.locator('#picked').textContent()}`);
    await page.locator('#words').fill('20 ft');
    await settled();
    check((await cards()).length > 0 && (await page.locator('.card').allTextContents()).every(t => /20 ft/.test(t)), `find ${how}: 20 ft finds ${await cards()}`);
    // "Show 3 trailers" is in reach while somebody types, and leads to them.
    const shows = page.locator('#go button');
    check(await shows.textContent() === `Show ${(await cards()).length} trailers` && (await shows.boundingBox()).y > 780, `find ${how}: a bar at the bottom says how many: ${await shows.textContent()}`);
    await shows.click();
    check(!(await shows.isVisible()) && await page.locator('#count').evaluate(e => e === document.activeElement && e.getBoundingClientRect().top < 200), `find ${how}: it leads to them`);
    await page.locator('#words').fill('');
    await settled();

    // Whether scripts and data load is all that differs from a folder on disk; the nightly checks
    // go on there too.
    if (how !== 'served' && !long) {
      await context.close();
      return;
    }

    // Each order is one, and what is sold is last in all of them.
    const amounts = async name => (await page.locator('.card:not(.gone) ' + name).allTextContents()).map(t => Number(t.replace(/[^0-9.]/g, ''))).filter(Boolean);
    for (const [order, name, sign] of [['price', '.price', 1], ['payload', '.carries data', -1], ['length', '.long', -1], ['newest', '', 1]]) {
      await page.locator('#sort').selectOption(order);
      await settled();
      const list = name ? (await amounts(name)).map(v => v * sign) : [];
      const gone = await page.locator('.card').evaluateAll(l => l.map(c => c.classList.contains('gone')));
      check(list.every((v, i) => i === 0 || list[i - 1] <= v || order === 'length' && Math.abs(list[i - 1] - v) < 100) && (!gone.includes(true) || gone.indexOf(true) === gone.filter(g => !g).length), `find ${how}: by ${order}: ${list}`);
    }
    const arrived = Object.fromEntries(stock.map(u => [u.stock, u.arrived ?? '']));
    const listed = async () => (await page.locator('.card:not(.gone) .stock').allTextContents()).map(s => arrived[s]).filter(Boolean);
    let days = await listed();
    for (let i = 0; i < 20 && days.some((d, i) => i > 0 && days[i - 1] < d); i++) { // a busy machine sorts later
      await settled();
      days = await listed();
    }
    check(days.every((d, i) => i === 0 || days[i - 1] >= d), `find ${how}: newest first: ${days}`);
    await page.locator('#sort').selectOption('');
    await settled();

    // My machine: 8,500 lb on 12 ft. Every card answers with its first word; a trailer of 7,000 lb
    // cannot be among those that carry it, whatever the arithmetic, nor one that is sold.
    await page.locator('#mine .change').click();
    check(/^Show (all [0-9,]+|[0-9,]+ trailers)$/.test((await page.locator('#go button').textContent()).trim()), `find ${how}: the bar over an open form has its words`);
    check(await page.locator('.line .unit').evaluateAll(all => all.every(e => e.getClientRects().length === 1 && e.getBoundingClientRect().height < 1.7 * parseFloat(getComputedStyle(e).fontSize))), `find ${how}: a unit is on one line`);
    const cut = await page.locator('#sort').evaluate(s => {
      const ruler = document.createElement('canvas').getContext('2d'), is = getComputedStyle(s);
      ruler.font = is.font;
      return [...s.options].map(o => o.text).filter(t => ruler.measureText(t).width > s.clientWidth - parseFloat(is.paddingLeft) - 20);
    });
    check(!cut.length, `find ${how}: every order is whole in its field: ${cut}`);
    await page.locator('#m-w').fill('8,500');
    await page.locator('#m-l').fill('12 ft');
    await page.locator('#m-s').fill('70');
    await settled();
    await page.waitForFunction(() => document.querySelector('.fit'));
    // What is filled in is looked for at once, and the bar counts it. Dropped, every card has an answer.
    check(await page.locator('#only-mine').getAttribute('aria-pressed') === 'true', `find ${how}: a machine that is filled in is looked for`);
    check(/^Show [0-9]+ trailers?$/.test((await page.locator('#go button').textContent()).trim()), `find ${how}: the bar counts what carries it: ${await page.locator('#go button').textContent()}`);
    await page.locator('#only-mine').click();
    await settled();
    check((await page.locator('.card .fit').allTextContents()).every(t => /^My machine (YES|NO|CANNOT SAY YET)/.test(t)), `find ${how}: every answer begins with its word`);
    check(await page.locator('.card.gone .fit').count() === 0, `find ${how}: a sold trailer gets no answer`);
    await page.locator('#sort').selectOption('fit');
    await settled();
    const answers = await page.locator('.card:not(.gone)').evaluateAll(l => l.map(c => ['YES', 'CANNOT SAY YET', 'NO'].findIndex(w => c.querySelector('.fit')?.textContent.startsWith('My machine ' + w))));
    check(answers.every((a, i) => i === 0 || answers[i - 1] <= a), `find ${how}: the nearest fit first: ${answers}`);
    await page.locator('#sort').selectOption('');
    await settled();
    await page.locator('#only-mine').click();
    await settled();
    await page.waitForFunction(n => document.querySelectorAll('.card').length < n, all);
    const carried = await cards();
    // Those of which nobody can say yet come last, below a line that counts them.
    const said = await page.locator('#cards > li').evaluateAll(l => l.map(c => (c.querySelector('.fit')?.textContent || c.textContent).replace('My machine ', '')));
    const line = said.findIndex(t => / more may: cannot say yet/.test(t)), may = line < 0 ? [] : said.slice(line + 1);
    check(said.slice(0, line < 0 ? said.length : line).every(t => t.startsWith('YES')) && may.every(t => t.startsWith('CANNOT SAY YET: ')) && (line < 0 || parseInt(said[line]) === may.length), `find ${how}: the doubtful ones come last and are counted: ${said}`);
    const gvwr = (await page.locator('.numbers').allTextContents()).map(t => Number(/GVWR ([0-9,]+) lb/.exec(t)[1].replace(/,/g, '')));
    check(carried.length > 0 && gvwr.every(g => g > 8500) && await page.locator('.card.gone').count() === 0, `find ${how}: my machine keeps what carries it: ${carried}`);
    await page.locator('#m-w').fill('abc');
    await settled();
    check(await page.locator('#m-w').getAttribute('aria-invalid') === 'true' && await page.locator('.card .fit').count() === 0, `find ${how}: what cannot be read gets no answer`);
    await page.locator('#m-w').fill('8,500');
    await settled();

    // My truck, with that machine on the trailer. One number is not a YES. The numbers stay on the
    // phone and out of the address.
    await page.locator('#mytruck .change').click();
    await page.locator('#t-gvwr').fill('9,900');
    await settled();
    check((await page.locator('.card .fit').allTextContents()).filter(t => /^My truck/.test(t)).every(t => !/YES/.test(t)), `find ${how}: one number of the truck is not a YES`);
    await page.locator('#t-kind').selectOption('receiver');
    for (const [id, v] of [['sticker', '2,800'], ['people', '300'], ['tow', '14,000'], ['hitch', '14,000'], ['tongue', '1,800'], ['ball', '14,000'], ['size', '2-5/16']]) await page.locator('#t-' + id).fill(v);
    await settled();
    check(await page.locator('#only-pull').getAttribute('aria-pressed') === 'true', `find ${how}: a truck that is filled in is looked for`);
    const pulled = await cards();
    check(pulled.length < carried.length && pulled.every(t => !/gooseneck|pintle/.test(t)), `find ${how}: a receiver keeps no gooseneck: ${pulled}`);
    // The truck alone has an answer of its own.
    check((await page.locator('.card .fit').allTextContents()).filter(t => /^My truck/.test(t)).every(t => /^My truck, with the machine on/.test(t)), `find ${how}: with the machine, the truck is asked about with it on`);
    await page.locator('#only-mine').click();
    await settled();
    check((await page.locator('.card .fit').allTextContents()).filter(t => /^My truck/.test(t)).every(t => /^My truck, loaded full (YES|CANNOT SAY YET)/.test(t)), `find ${how}: without it, loaded full: ${await page.locator('.card .fit').allTextContents()}`);
    await page.locator('#only-mine').click();
    await settled();
    check(!decodeURIComponent(await page.evaluate(() => location.href)).includes('9900'), `find ${how}: the truck's numbers are not in the address`);
    check((await page.evaluate(() => localStorage.getItem('tarepage-truck'))).includes('14000'), `find ${how}: they are kept on the phone`);
    if (how === 'served') await page.screenshot({ path: path.join(out, 'brought-390.png'), fullPage: true });
    await page.locator('#truck-form .turn button').click();
    await settled();
    check((await page.evaluate(() => localStorage.getItem('tarepage-truck'))) === null, `find ${how}: forgetting the truck forgets it`);
    await page.locator('#m-w').scrollIntoViewIfNeeded();
    await page.locator('#mine .change').click();
    await page.locator('#mytruck .change').click();
    await page.locator('#picked .drop').first().click();
    await settled();

    // Two trailers compared, differences first, and Back.
    await page.locator('.pick').nth(0).click();
    await page.locator('.pick').nth(2).click();
    await page.locator('#do').click();
    await settled();
    check(await page.locator('#versus table').isVisible() && !(await page.locator('#cards').isVisible()), `find ${how}: two are side by side`);
    check(/as of [A-Z][a-z]+ [0-9]+, [0-9]{4}/.test(await page.locator('#versus + .terms').innerText()), `find ${how}: below them, as of when their prices hold`);
    check(await page.evaluate(() => scrollY < 150) && await page.locator('#versus .faces td img, #versus .faces td svg').count() >= 2, `find ${how}: the comparison opens at its top, with pictures`);
    await page.waitForFunction(() => /Working payload/.test(document.querySelector('#versus').textContent));
    const rows = await page.locator('#versus tbody tr:not(.faces)').evaluateAll(list => list.map(r => [...r.cells].map(c => c.textContent)));
    check(['Tongue weight, empty, on a scale', 'Working payload', 'Steepest loading angle', 'Cautions'].every(n => rows.some(r => r[0] === n)), `find ${how}: the comparison has ${rows.map(r => r[0])}`);
    await page.evaluate(() => scrollTo(0, 700));
    check(await page.locator('#versus thead').evaluate(e => Math.abs(e.getBoundingClientRect().top) < 2), `find ${how}: the names stay in sight`);
    await page.evaluate(() => scrollTo(0, 0));
    const alike = rows.findIndex(r => r[0] === 'The same');
    check(rows[0][0] === 'Different' && rows.slice(1, alike).every(r => new Set(r.slice(1)).size > 1) &&
      rows.slice(alike + 1).every(r => new Set(r.slice(1)).size === 1), `find ${how}: what differs comes first`);
    for (const width of [320, 390, 1280]) {
      await page.setViewportSize({ width, height: 844 });
      check(await page.evaluate(() => document.documentElement.scrollWidth) <= width, `find ${how}: the comparison fits ${width} px`);
    }
    await page.setViewportSize({ width: 390, height: 844 });
    if (how === 'served') await page.screenshot({ path: path.join(out, 'compare-390.png'), fullPage: true });
    await page.goBack();
    await settled();
    check(await page.locator('#cards').isVisible(), `find ${how}: Back leaves the comparison`);

    // Everything open, at 320 px with text spacing and in forced colors, checked by axe.
    await page.evaluate(() => document.querySelectorAll('details').forEach(d => { d.open = true; }));
    await settled();
    await page.evaluate(axe.source);
    const found = await page.evaluate(() => axe.run(document, {
      preload: false, // of styles, which pages in a folder may not ask for by script
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'], rules: { 'target-size': { enabled: true } },
    }));
    check(found.violations.length === 0, `find ${how}: axe with everything open: ` + found.violations.map(v => `${v.id} (${v.nodes[0].html.slice(0, 120)})`).join('; '));
    await page.setViewportSize({ width: 320, height: 844 });
    await page.evaluate(css => {
      const sheet = new CSSStyleSheet();
      sheet.replaceSync(css);
      document.adoptedStyleSheets = [sheet];
    }, spacing);
    check(await page.evaluate(() => document.documentElement.scrollWidth) <= 320, `find ${how}: everything open fits 320 px with text spacing`);
    check(await page.evaluate(() => document.querySelectorAll('*').length) <= 700, `find ${how}: no more than 700 elements with everything open`);
    await page.emulateMedia({ forcedColors: 'active' });
    await page.locator('.chip[data-v="dump"]').click();
    await settled();
    const border = await page.locator('.chip[data-v="dump"]').evaluate(e => getComputedStyle(e).borderTopWidth);
    check(parseFloat(border) >= 3 && (await page.locator('.chip[data-v="dump"]').getAttribute('aria-pressed')) === 'true', `find ${how}: a pressed chip shows in forced colors`);
    await context.close();
  }));

  // By keyboard only: a chip is reached, pressed with Space, and announced as pressed.
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const { page } = await visit(context, base + 'index.html', 'find by keyboard');
  let reached = false;
  for (let i = 0; i < 12 && !reached; i++) {
    await page.keyboard.press('Tab');
    reached = await page.evaluate(() => document.activeElement.matches('.chip'));
  }
  await page.keyboard.press('Space');
  await page.waitForTimeout(400);
  check(reached && await page.evaluate(() => document.activeElement.getAttribute('aria-pressed') === 'true'), 'find by keyboard: Space presses a chip and the focus stays');
  await context.close();
}
