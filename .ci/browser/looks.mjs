// What single pages must keep: colors, photos, the recording, links on a host, the first
// screens, paper, and the focus of the keyboard.
import axe from 'axe-core';
import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { long } from './pages.mjs';

// By night and in the reader's own colors: one page of each kind, its text at a contrast of 7
// to 1 by day and by night (WCAG 2.2, 1.4.6). The style sets the colors, so one page of each
// kind is enough.
export async function colors(browser, { site, out, pages, check, visit }) {
  const sorts = [/^index/, /^kind-/, /^u[\\/]/, /^figures[\\/]/, /^how-we-figure/, /^404/]
    .map(sort => pages.find(f => sort.test(path.relative(site, f)))).filter(Boolean);
  const lights = { day: { colorScheme: 'light' }, night: { colorScheme: 'dark' }, forced: { forcedColors: 'active' } };
  await Promise.all(Object.entries(lights).map(async ([light, options]) => {
    const context = await browser.newContext({ viewport: { width: 390, height: 844 }, ...options });
    for (const file of sorts) {
      const name = `${path.relative(site, file)} by ${light}`;
      const { page } = await visit(context, pathToFileURL(file).href, name);
      await page.evaluate(() => document.querySelectorAll('details').forEach(d => { d.open = true; }));
      await page.screenshot({ path: path.join(out, `${path.relative(site, file).replace(/[\\/]/g, '-').replace('.html', '')}-${light}.png`) });
      if (light === 'forced') {
        // The tape marks cautions. In the reader's colors it still has stripes and a border.
        const tape = await page.evaluate(() => [...document.querySelectorAll('.cautions, .warned')].map(e => {
          const s = getComputedStyle(e, '::before');
          return s.backgroundImage.includes('gradient') && s.borderTopStyle === 'solid';
        }));
        check(tape.every(Boolean), `${name}: the tape keeps its stripes`);
      } else {
        await page.evaluate(axe.source);
        const found = await page.evaluate(() => axe.run(document, { runOnly: { type: 'rule', values: ['color-contrast', 'color-contrast-enhanced'] } }));
        check(found.violations.length === 0, `${name}: ` + found.violations.map(v => `${v.id}: ` + v.nodes.map(n => `${n.html.slice(0, 90)} ${n.any[0]?.data?.contrastRatio}`).slice(0, 4).join('; ')).join('; '));
        if (light === 'night') check(await page.evaluate(() => getComputedStyle(document.body).backgroundColor) !== 'rgb(255, 254, 251)', `${name}: the paper is dark`);
      }
      await page.close();
    }
    await context.close();
  }));
}

// Photos: what a phone loads before a tap, and what a tap on a small picture brings.
export async function photos(browser, { site, pages, some, check, visit }) {
  const shows = some(pages.filter(f => fs.readFileSync(f, 'utf8').includes('class="pic"')));
  check(shows.length > 0, 'a unit page shows photos');
  for (const file of shows) {
    const name = path.relative(site, file);
    const context = await browser.newContext({ viewport: { width: 390, height: 844 }, deviceScaleFactor: 3 });
    // With scripts on: without them a browser does not load pictures lazily (HTML Standard,
    // 2.5.7, lazy loading attributes).
    const { page, asked } = await visit(context, pathToFileURL(file).href, `${name}, photos`);
    await page.waitForLoadState('networkidle');
    const loaded = () => [...new Set(asked)].filter(u => /\.(webp|jpg|png)$/.test(u)).map(u => [u, fs.statSync(new URL(u)).size]);
    const first = loaded();
    // The first picture, and those that a swipe brings next: a browser fetches them ahead.
    check(first.reduce((n, [, size]) => n + size, 0) <= 90000, `${name}: 90 KB of pictures before a swipe: ${first}`);
    check(first.length > 0 && first[0][1] <= 30000, `${name}: 30 KB for the first picture: ${first[0]}`);
    const html = fs.readFileSync(file, 'utf8');
    const images = html.match(/<img [^>]*>/g);
    check(images.every(i => /\bwidth="?\d/.test(i) && /\bheight="?\d/.test(i) && /\balt=/.test(i)), `${name}: every picture says its size and what it shows`);
    check(html.match(/fetchpriority="?high/g)?.length === 1 && images.slice(1).every(i => i.includes('loading="lazy"')) && !images[0].includes('lazy'),
      `${name}: the first picture is fetched first and the others lazily`);
    // The row is swiped or moved by keys, one photo at a time, with scripts and without.
    const count = await page.locator('.reel li').count();
    if (count > 1) {
      const buttons = page.locator('.photos button');
      if (await buttons.count()) {
        await buttons.last().click();
        await page.waitForFunction(() => Math.round(document.querySelector('.reel').scrollLeft / document.querySelector('.reel').clientWidth) === 1);
        await buttons.first().click();
        await page.waitForFunction(() => document.querySelector('.reel').scrollLeft < 2);
      }
      await page.locator('.reel').focus();
      await page.keyboard.press('ArrowRight');
      await page.locator('.reel').evaluate(r => r.scrollBy({ left: r.clientWidth }));
      await page.waitForFunction(() => document.querySelector('.reel').scrollLeft > 200);
      const second = page.locator('.reel .pic img').nth(1);
      await second.evaluate(i => i.complete || new Promise(done => { i.onload = done; }));
      check(await second.evaluate(i => i.naturalWidth > 300), `${name}: the second photo comes when it is swiped to`);
    }
    await context.close();
    const off = await browser.newContext({ viewport: { width: 390, height: 844 }, javaScriptEnabled: false });
    const plain = await visit(off, pathToFileURL(file).href, `${name}, photos without scripts`);
    check(await plain.page.locator('.reel').evaluate(r => getComputedStyle(r).scrollSnapType).catch(() => 'x mandatory') === 'x mandatory', `${name}: the photos snap with scripts off`);
    await off.close();
  }
}

// A recording: none of it is loaded before a tap, captions and chapters need no request, and a
// time in the notes seeks. From a folder on disk.
export async function recording(browser, { site, pages, check, visit }) {
  const file = pages.find(f => fs.readFileSync(f, 'utf8').includes('<video'));
  check(!!file, 'a unit page plays a recording');
  if (file) {
    const name = path.relative(site, file);
    const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
    const { page, asked } = await visit(context, pathToFileURL(file).href, `${name}, recording`);
    await page.waitForLoadState('networkidle');
    check(!asked.some(u => /\.(mp4|mov|webm)/.test(u)), `${name}: no byte of video before a tap: ${asked}`);
    check(/[0-9]:[0-9]{2} long, [0-9]+ [KM]B/.test(await page.locator('.walk .size').textContent()), `${name}: length and size are shown before the tap`);
    const cues = kind => page.evaluate(async kind => {
      const t = [...document.querySelectorAll('video track')].find(t => t.kind === kind);
      if (!t) return 0;
      t.track.mode = 'hidden';
      for (let i = 0; i < 50 && !t.track.cues?.length; i++) await new Promise(f => setTimeout(f, 50));
      return t.track.cues?.length ?? 0;
    }, kind);
    check(await cues('captions') > 0, `${name}: captions are there from a folder on disk`);
    check(await cues('chapters') > 0, `${name}: chapters are there from a folder on disk`);
    const moment = page.locator('a[data-t]').last();
    await page.evaluate(() => document.querySelectorAll('details').forEach(d => { d.open = true; }));
    const to = +await moment.getAttribute('data-t');
    // Where it was after the seek, not where it is by now: it plays on.
    await page.evaluate(() => document.querySelector('video').addEventListener('seeked', e => { window.sought ??= e.target.currentTime; }));
    await moment.click();
    await page.waitForFunction(() => window.sought !== undefined, null, { timeout: 10000 }).catch(() => {});
    const at = await page.evaluate(() => window.sought);
    check(to > 0 && at >= to && at < to + 2, `${name}: a time seeks to ${to}, the video is at ${at}`);
    await context.close();
  }
}

// Served below a path: go from the yard to a unit, and open a figure by its link.
export async function served(browser, { site, base, pages, check, visit }) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const { page, asked } = await visit(context, base + 'index.html', 'served');
  await page.locator('.card > a').first().click();
  await page.waitForURL(/\/u\/[a-z0-9-]+\.html$/);
  check(asked.every(u => u.startsWith(base) || u.startsWith('data:')), 'served: nothing is asked of anybody else');
  const unit = pages.map(f => path.relative(site, f)).find(n => /^u[\\/]/.test(n) && fs.readFileSync(path.join(site, n), 'utf8').includes('class="fig"'));
  check(!!unit, 'a unit page holds a checked figure');
  if (unit) {
    await page.goto(base + unit.replaceAll('\\', '/'));
    const link = page.locator('a.fig').first();
    await page.evaluate(() => document.querySelectorAll('details').forEach(d => { d.open = true; }));
    const id = (await link.getAttribute('href')).split('#')[1];
    await link.click();
    check(await page.locator('#' + id).waitFor().then(() => true, () => false), `served: the link to ${id} opens its working`);
    await page.goBack();
  }
  await context.close();
}

// A customer's machine and truck, as a phone keeps them.
const known = { machine: { k: 4, w: 9500, l: 132 }, truck: { kind: 'gooseneck', gvwr: 14000, sticker: 5200, people: 400, tow: 20000, hitch: 30000, tongue: 7500, ball: 30000, size: 2.3125 } };

// On a phone of 390 by 844: the price, the status and the tag are in the first screen, above
// the bar; the telephone is always in reach; the drawing, the cautions and what is asked first
// are within three screens, which hold the answers too; the page is five at most with its groups
// closed. On trailers' pages, in pounds and in kilograms.
export async function twoScreens(browser, { site, pages, some, check, visit }) {
  for (const file of some(pages.filter(f => /^u[\\/]/.test(path.relative(site, f))))) {
    // Each page has a phone of its own: all pages of a folder share what a phone keeps, and what
    // one of them clears may be cleared after the next one kept it.
    const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
    const name = path.relative(site, file);
    const { page } = await visit(context, pathToFileURL(file).href, `${name}, screens`);
    for (const system of ['pounds', 'kilograms']) {
      const at = await page.evaluate(() => Object.fromEntries(['.bar', '.price', '.avail', '.tag', '.safety', '.side', '.before > ul > :nth-last-child(1 of .cautions)'].map(s => [s, document.querySelector(s)?.getBoundingClientRect().bottom + scrollY])));
      const tall = await page.evaluate(() => document.documentElement.scrollHeight), sold = await page.locator('.nearest').count();
      // A sold trailer's page says so in the place of the price, and then names what is for sale.
      check(at['.bar'] === 844 && at['.price'] <= 788 && (sold || at['.avail'] <= 788 && at['.tag'] <= 788), `${name}: price, status and tag are in the first screen in ${system}: ${JSON.stringify(at)}`);
      check(Object.values(at).every(end => end === null || !(end > 3 * 844)), `${name}: drawing and red cautions within three screens in ${system}: ${JSON.stringify(at)}`);
      check(tall <= 5 * 844, `${name} is ${tall} px tall in ${system}, at most five screens`);
      await page.locator('.switch .units').click(); // The second time, back to pounds.
    }
    // A photo's caption is below it, so that it hides no wheels.
    const covered = await page.evaluate(() => [...document.querySelectorAll('.photos figure')].filter(f => f.querySelector('figcaption')?.getBoundingClientRect().top < f.querySelector('.pic').getBoundingClientRect().bottom - 1).length);
    check(covered === 0, `${name}: ${covered} captions lie on their photos`);
    // With a machine and a truck the answers come too, and it still is five screens at most.
    await page.evaluate(known => { for (const k in known) localStorage.setItem('tarepage-' + k, JSON.stringify(known[k])); }, known);
    await page.reload();
    if (await page.locator('#mytruck').count()) {
      await page.locator('#truck-is b').waitFor().catch(async () => {
        const now = await page.evaluate(() => [document.readyState, document.getElementById('truck-is').outerHTML, ...[...document.scripts].map(s => s.src.split('/').pop())]);
        check(false, `${name}: the truck's answer does not come: ${now.join(' ')}`);
      });
    }
    const answered = await page.evaluate(() => document.documentElement.scrollHeight);
    check(answered <= 5 * 844, `${name} is ${answered} px tall with its answers, at most five screens`);
    await context.close();
  }
}

// Paper: the lot sheet and the hand-over card fill one page, the spec sheet two at most, in
// Letter and in A4. The pages are counted in the PDF that Chromium makes
// (ISO 32000-1, 7.7.3.3: each is an object of /Type /Page).
export async function paper(browser, { site, pages, some, check, visit }) {
  const context = await browser.newContext();
  for (const [folder, most] of [['lot', 1], ['handover', 1], ['u', 2]]) {
    const list = some(pages.filter(f => path.dirname(path.relative(site, f)) === folder));
    check(list.length > 0, `paper: the site has ${folder}`);
    for (const [i, file] of list.entries()) {
      const name = path.relative(site, file);
      const { page } = await visit(context, pathToFileURL(file).href, `${name} on paper`);
      // Making a PDF is most of the work, so the two take turns here, and the nightly checks make both.
      for (const format of long ? ['Letter', 'A4'] : [['Letter', 'A4'][i % 2]]) {
        const pdf = await page.pdf({ format, preferCSSPageSize: false });
        const n = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g).length;
        check(n <= most, `${name} prints on ${n} pages of ${format}, not ${most}`);
      }
      // Nothing on paper can be pressed, and a heading stays with what follows it.
      await page.emulateMedia({ media: 'print' });
      check(await page.locator('button:visible, input:visible, select:visible, nav a:visible').count() === 0, `${name} prints nothing to press`);
      check(await page.locator('h2:visible, h3:visible').evaluateAll(l => l.every(h => /avoid/.test(getComputedStyle(h).breakAfter + getComputedStyle(h.parentElement).breakAfter))) || folder !== 'u',
        `${name}: a heading may be the last thing on a page`);
      if (folder === 'lot') {
        // Letter less its margins of 12 mm, in CSS pixels.
        await page.setViewportSize({ width: 725, height: 965 });
        const at = await page.evaluate(() => ({ end: document.querySelector('.end').getBoundingClientRect().bottom, head: parseFloat(getComputedStyle(document.querySelector('h1')).fontSize) }));
        check(at.end > 920 && at.end <= 966 && at.head >= 96, `${name}: the sheet is filled to its foot, with a headline of 72 pt: ${JSON.stringify(at)}`);
      }
      await page.close();
    }
  }
  await context.close();
}

// Keyboard: every stop shows the focus.
export async function keyboard(browser, { pages, check, visit }) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const first = pages.find(f => /[\\/]u[\\/]/.test(f));
  const { page } = await visit(context, pathToFileURL(first).href, 'keyboard');
  for (let i = 0; i < 12; i++) {
    await page.keyboard.press('Tab');
    const seen = await page.evaluate(() => {
      const e = document.activeElement;
      if (!e || e === document.body) return true;
      const s = getComputedStyle(e);
      return s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 2;
    });
    check(seen, `keyboard: stop ${i + 1} shows the focus`);
  }
  await context.close();
}

// Nothing moves by itself: a customer whose machine and truck are known comes to a page, and the
// calculators come after its first picture. The layout shift (Web Vitals: CLS) stays below 0.05, half of what is called good, at
// the top of the page and further down. The longest task is reported and fails nothing: a busy
// machine makes it longer.
export async function steady(browser, { site, base, check, open }) {
  for (const name of ['index.html', 'u/sb-1043.html', 'u/sb-1027.html'].filter(n => fs.existsSync(path.join(site, n)))) {
    for (const [width, height] of [[390, 844], [1280, 800]]) {
      for (const down of [0, 600]) {
        const context = await browser.newContext({ viewport: { width, height } });
        // The scripts that come when the page is idle come late here, after its first picture.
        await context.route(/\/s\/(bring|statics|machines|keep)/, route => setTimeout(() => route.continue(), 200));
        await context.addInitScript(([known, down]) => {
          for (const k in known) localStorage.setItem('tarepage-' + k, JSON.stringify(known[k]));
          window.seen = { cls: 0, longest: 0 };
          new PerformanceObserver(l => l.getEntries().forEach(e => { if (!e.hadRecentInput) window.seen.cls += e.value; })).observe({ type: 'layout-shift', buffered: true });
          new PerformanceObserver(l => l.getEntries().forEach(e => { window.seen.longest = Math.max(window.seen.longest, e.duration); })).observe({ type: 'longtask', buffered: true });
          if (down) document.addEventListener('DOMContentLoaded', () => scrollTo(0, down));
        }, [known, down]);
        const { page, go } = await open(context);
        const asked = await go(base + name, `${name}, steady`);
        await page.locator(name === 'index.html' ? '.card .fit' : '#truck-is b').first().waitFor();
        await page.waitForLoadState('networkidle');
        await page.waitForTimeout(400);
        const needs = asked.filter(u => /\.(html|js)$/.test(u)).length;
        const seen = await page.evaluate(() => window.seen);
        check(seen.cls < .05, `${name} at ${width}, ${down} px down, moves by ${seen.cls.toFixed(3)} when the answers come`);
        if (down === 0) check(needs <= 9, `${name} asks for ${needs} pages and scripts, 9 at most: ${asked}`);
        console.log(`          ${name} at ${width}, ${down} px down: shift ${seen.cls.toFixed(3)}, longest task ${seen.longest} ms, ${needs} pages and scripts`);
        await context.close();
      }
    }
  }
  // What the first view weighs is held by TestWeights of internal/render.
}
