// The browser checks: every page of the built site in Chromium, as a customer with a phone
// sees it. node check.mjs SITE OUT. Without a browser the checks are skipped with a loud
// message; with -must that is a failure. Each part prints what it took.
import { chromium } from 'playwright-core';
import axe from 'axe-core';
import fs from 'node:fs';
import http from 'node:http';
import path from 'node:path';
import { spawnSync } from 'node:child_process';
import { find } from './find.mjs';
import { lot } from './lot.mjs';
import { showroom } from './showroom.mjs';
import { tryout } from './try.mjs';
import { pathToFileURL } from 'node:url';

const must = process.argv.includes('-must');
const [site, out] = process.argv.slice(2).filter(a => !a.startsWith('-')).map(p => path.resolve(p));
const browserPath = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find(p => fs.existsSync(p));
if (!browserPath) {
  console.log('\n*** BROWSER CHECKS SKIPPED: no Chromium on this machine (apt-get install chromium) ***\n');
  process.exit(must ? 1 : 0);
}

let passed = 0;
const failures = [];
function check(ok, what) {
  if (ok) passed++;
  else { failures.push(what); console.log('FAIL ' + what); }
}

// Prints what a part took.
let began = performance.now();
function part(name) {
  console.log(`${((performance.now() - began) / 1000).toFixed(1).padStart(7)} s  ${name}`);
  began = performance.now();
}

const walk = dir => fs.readdirSync(dir, { withFileTypes: true }).flatMap(e =>
  e.isDirectory() ? walk(path.join(dir, e.name)) : [path.join(dir, e.name)]);
const pages = walk(site).filter(f => f.endsWith('.html')).sort();
check(pages.length > 0, 'the site has pages');
fs.mkdirSync(out, { recursive: true });

// A server for static files below a path, which is how many hosts serve a site.
const types = { '.html': 'text/html; charset=utf-8', '.txt': 'text/plain', '.css': 'text/css', '.js': 'text/javascript; charset=utf-8', '.svg': 'image/svg+xml',
  '.webp': 'image/webp', '.jpg': 'image/jpeg', '.mp4': 'video/mp4' };
const prefix = '/some/where/';
const server = http.createServer((req, res) => {
  const url = new URL(req.url, 'http://x');
  const file = path.join(site, decodeURIComponent(url.pathname.slice(prefix.length)));
  if (!url.pathname.startsWith(prefix) || !file.startsWith(site) || !fs.existsSync(file) || fs.statSync(file).isDirectory()) {
    res.writeHead(404).end();
    return;
  }
  res.writeHead(200, { 'content-type': types[path.extname(file)] || 'application/octet-stream' });
  fs.createReadStream(file).pipe(res);
});
await new Promise(ready => server.listen(0, '127.0.0.1', ready));
const base = `http://127.0.0.1:${server.address().port}${prefix}`;

const browser = await chromium.launch({ executablePath: browserPath, args: ['--no-sandbox', '--disable-gpu', '--disable-quic',
  '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'] });

// WCAG 2.2, 1.4.12 Text Spacing: nothing may be lost with these.
const spacing = '* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important; } p { margin-bottom: 2em !important; }';

async function visit(context, url, name) {
  const page = await context.newPage();
  const asked = [];
  page.on('request', r => asked.push(r.url()));
  page.on('console', m => check(m.type() !== 'error' && m.type() !== 'warning', `${name}: console: ${m.text()}`));
  page.on('pageerror', e => check(false, `${name}: ${e}`));
  await page.goto(url);
  return { page, asked };
}

// The text of a page, without the parts that need scripts and are marked so.
const said = page => page.evaluate(() => {
  const copy = document.body.cloneNode(true);
  copy.querySelectorAll('.scripted, .pick, script, style').forEach(e => e.remove());
  return copy.textContent.replace(/\s+/g, ' ');
});

const words = new Map();
// Pages of one template that differ only in numbers are opened as a sample: the first, the
// heaviest and the last of their folder. The links of all of them are checked.
const folders = Map.groupBy ? Map.groupBy(pages, f => path.dirname(path.relative(site, f))) : pages.reduce((m, f) => {
  const d = path.dirname(path.relative(site, f));
  return m.set(d, [...(m.get(d) || []), f]);
}, new Map());
const sampled = new Set([...folders].flatMap(([dir, list]) => /^(figures|lot|handover)$/.test(dir) ?
  [list[0], list.slice().sort((a, b) => fs.statSync(b).size - fs.statSync(a).size)[0], list.at(-1)] : list));
// Screenshots for a person to look at: one of each kind of page.
const pictured = /^(index|how-we-figure|404|(u|figures|lot|handover)[\\/]sb-1043)\.html$/;

async function lookAt(file) {
  const name = path.relative(site, file);
  const url = pathToFileURL(file).href;

  // Scripts on, three widths, from a folder on disk.
  for (const width of sampled.has(file) ? [320, 390, 1280] : []) {
    const context = await browser.newContext({ viewport: { width, height: 844 } });
    const { page, asked } = await visit(context, url, `${name} at ${width}`);
    const own = pathToFileURL(site).href + '/';
    check(asked.every(u => u === url || u.startsWith('data:') || u.startsWith(own)), `${name} at ${width} asks only for files of the site: ${asked}`);
    const wide = () => page.evaluate(() => document.documentElement.scrollWidth);
    check(await wide() <= width, `${name} at ${width} px scrolls sideways: ${await wide()}`);
    if (width === 320) {
      await page.evaluate(() => document.querySelectorAll('details').forEach(d => { d.open = true; }));
      check(await wide() <= width, `${name} at 320 px with every working open: ${await wide()}`);
      await page.evaluate(css => {
        const sheet = new CSSStyleSheet();
        sheet.replaceSync(css);
        document.adoptedStyleSheets = [sheet];
      }, spacing);
      check(await wide() <= width, `${name} at 320 px with text spacing: ${await wide()}`);
    }
    if (width === 390) {
      words.set(name, await said(page));
      await page.evaluate(() => document.querySelectorAll('details').forEach(d => { d.open = true; }));
      await page.evaluate(axe.source);
      const found = await page.evaluate(() => axe.run(document, {
        runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
        rules: { 'target-size': { enabled: true } },
      }));
      check(found.violations.length === 0, `${name}: axe: ` + found.violations.map(v => `${v.id} (${v.nodes[0].html.slice(0, 120)})`).join('; '));
    }
    if (pictured.test(name) && width !== 320) {
      await page.screenshot({ path: path.join(out, `${name.replace(/[\\/]/g, '-').replace('.html', '')}-${width}.png`), fullPage: true });
    }
    await context.close();
  }

  // Scripts off: the page says the same.
  if (sampled.has(file)) {
    const off = await browser.newContext({ viewport: { width: 390, height: 844 }, javaScriptEnabled: false });
    const { page } = await visit(off, url, `${name} without scripts`);
    check(await said(page) === words.get(name), `${name} says the same without scripts`);
    check(await page.locator('.scripted:visible, .pick:visible').count() === 0, `${name} without scripts shows nothing that needs them`);
    await off.close();
  }

  // Links: each leads to a file of the site and, where it names a place, to that place.
  const html = fs.readFileSync(file, 'utf8');
  check(!/\s(src|srcset|poster)="(https?:)?\/\//.test(html) && !/@import|url\(\s*['"]?https?:/.test(html), `${name} names no file of another host`);
  for (const [, href] of html.matchAll(/\shref="([^"]*)"/g)) {
    let plain = href.replaceAll('&amp;', '&');
    // The page for an unknown address is shown at any depth, so its links begin at the root
    // of the host, with the folder of the site's own address (for the demo the root itself).
    if (name === '404.html' && plain.startsWith('/')) plain = plain.slice(1);
    if (/^(tel|mailto|https?|data):/.test(plain)) continue;
    check(!plain.startsWith('/'), `${name}: ${plain} is relative`);
    const [to, place] = plain.split('#');
    const target = to === '' ? file : path.join(path.dirname(file), decodeURIComponent(to));
    const there = fs.existsSync(target) && fs.statSync(target).isFile();
    check(there, `${name}: ${plain} leads to a file`);
    // A fragment with an equals sign is not a place: it is a state of the page or a time in a video.
    if (there && place && !place.includes('=')) check(fs.readFileSync(target, 'utf8').includes(`id="${place}"`), `${name}: ${plain} leads to a place`);
  }
}

// Three pages at a time: one renders while another waits.
const queue = pages.slice();
await Promise.all(Array.from({ length: 3 }, async () => {
  while (queue.length) await lookAt(queue.shift());
}));
part('every page');

// By night and in the reader's own colors: one page of each kind, its text at a contrast of 7
// to 1 by day and by night (WCAG 2.2, 1.4.6). The style sets the colors, so one page of each
// kind is enough.
{
  const sorts = [/^index/, /^kind-/, /^u[\\/]/, /^figures[\\/]/, /^how-we-figure/, /^404/]
    .map(sort => pages.find(f => sort.test(path.relative(site, f)))).filter(Boolean);
  const lights = { day: { colorScheme: 'light' }, night: { colorScheme: 'dark' }, forced: { forcedColors: 'active' } };
  for (const [light, options] of Object.entries(lights)) {
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
  }
}

part('colors');

// Photos: what a phone loads before a tap, and what a tap on a small picture brings.
{
  const shows = pages.filter(f => fs.readFileSync(f, 'utf8').includes('class="pic"'));
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
    check(first.reduce((n, [, size]) => n + size, 0) <= 60000, `${name}: 60 KB of pictures before a tap: ${first}`);
    check(first.length > 0 && first[0][1] <= 30000, `${name}: 30 KB for the first picture: ${first[0]}`);
    const html = fs.readFileSync(file, 'utf8');
    const images = html.match(/<img [^>]*>/g);
    check(images.every(i => /\bwidth="?\d/.test(i) && /\bheight="?\d/.test(i) && /\balt=/.test(i)), `${name}: every picture says its size and what it shows`);
    check(html.match(/fetchpriority="?high/g)?.length === 1 && images.slice(1).every(i => i.includes('loading="lazy"')) && !images[0].includes('lazy'),
      `${name}: the first picture is fetched first and the others lazily`);
    const small = page.locator('.photos li summary').first();
    if (await small.count()) {
      await small.focus();
      await page.keyboard.press('Enter');
      const large = page.locator('.photos li [open] .pic img').first();
      await large.scrollIntoViewIfNeeded();
      await large.evaluate(i => i.complete || new Promise(done => { i.onload = done; }));
      check(loaded().length > first.length && await large.evaluate(i => i.naturalWidth > 300), `${name}: a small photo opens large by keyboard`);
    }
    await context.close();
    const off = await browser.newContext({ viewport: { width: 390, height: 844 }, javaScriptEnabled: false });
    const plain = await visit(off, pathToFileURL(file).href, `${name}, photos without scripts`);
    const summary = plain.page.locator('.photos li summary').first();
    if (await summary.count()) {
      await summary.click();
      check(await plain.page.locator('.photos li [open] .pic img').first().isVisible(), `${name}: a small photo opens with scripts off`);
    }
    await off.close();
  }
}

part('photos');

// A recording: none of it is loaded before a tap, captions and chapters need no request, and a
// time in the notes seeks. From a folder on disk.
{
  const file = pages.find(f => fs.readFileSync(f, 'utf8').includes('<video'));
  check(!!file, 'a unit page plays a recording');
  if (file) {
    const name = path.relative(site, file);
    const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
    const { page, asked } = await visit(context, pathToFileURL(file).href, `${name}, recording`);
    await page.waitForLoadState('networkidle');
    check(!asked.some(u => /\.(mp4|mov|webm)/.test(u)), `${name}: no byte of video before a tap: ${asked}`);
    check(/[0-9]:[0-9]{2} long, [0-9]+ [KM]B/.test(await page.locator('.walk .size').innerText()), `${name}: length and size are shown before the tap`);
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
    const to = +await moment.getAttribute('data-t');
    await moment.click();
    await page.waitForFunction(to => document.querySelector('video').currentTime >= to, to, { timeout: 10000 }).catch(() => {});
    const at = await page.evaluate(() => document.querySelector('video').currentTime);
    check(to > 0 && at >= to && at < to + 4, `${name}: a time seeks to ${to}, the video is at ${at}`);
    await context.close();
  }
}

part('recording');

// Served below a path: go from the yard to a unit, and open a figure by its link.
{
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
    const id = (await link.getAttribute('href')).split('#')[1];
    await link.click();
    check(await page.locator('#' + id).isVisible(), `served: the link to ${id} opens its working`);
    await page.goBack();
  }
  await context.close();
}

part('served');

// Within two and a quarter screens of a phone of 390 by 844: the telephone, the tag, the side view and every
// caution. On every trailer's page, with and without photos, in pounds and in kilograms.
for (const file of pages.filter(f => /^u[\\/]/.test(path.relative(site, f)))) {
  const name = path.relative(site, file);
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const { page } = await visit(context, pathToFileURL(file).href, `${name}, two screens`);
  for (const system of ['pounds', 'kilograms']) {
    const ends = await page.evaluate(() => Object.fromEntries(['.call', '.price', '.tag', '.safety', '.side', '.cautions > ul'].map(s => [s, document.querySelector(s)?.getBoundingClientRect().bottom + scrollY])));
    check(ends['.call'] <= 60 && ends['.price'] <= 844, `${name}: the telephone and the price are in the first screen: ${JSON.stringify(ends)}`);
    check(Object.values(ends).every(end => end === null || !(end > 2.25 * 844)), `${name}: tag, side view and cautions within two and a quarter screens in ${system}: ${JSON.stringify(ends)}`);
    await page.locator('.switch .units').click();
  }
  await context.close();
}

part('two screens');

// Paper: the lot sheet and the hand-over card fill one page, the spec sheet at most seven, in
// Letter and in A4. The pages are counted in the PDF that Chromium makes (ISO 32000-1,
// 7.7.3.3: each is an object of /Type /Page).
for (const [folder, most] of [['lot', 1], ['handover', 1], ['u', 7]]) {
  const list = pages.filter(f => path.dirname(path.relative(site, f)) === folder);
  const heaviest = list.slice().sort((a, b) => fs.statSync(b).size - fs.statSync(a).size).slice(0, folder === 'u' ? 3 : list.length);
  check(heaviest.length > 0, `paper: the site has ${folder}`);
  const context = await browser.newContext();
  for (const file of heaviest) {
    const { page } = await visit(context, pathToFileURL(file).href, `${path.relative(site, file)} on paper`);
    for (const format of ['Letter', 'A4']) {
      const pdf = await page.pdf({ format, preferCSSPageSize: false });
      const n = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g).length;
      check(most === 1 ? n === 1 : n <= most, `${path.relative(site, file)} prints on ${n} pages of ${format}, not ${most}`);
    }
    await page.close();
  }
  await context.close();
}

part('paper');

// Keyboard: every stop shows the focus.
{
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
part('keyboard');
await find(browser, { site, base, check, visit, spacing, axe, out });
part('find');
await tryout(browser, { site, base, check, visit, axe: async (page, name) => {
  await page.evaluate(axe.source);
  const r = await page.evaluate(() => window.axe.run({ rules: { 'target-size': { enabled: true } } }));
  check(r.violations.length === 0, `${name}: axe: ${JSON.stringify(r.violations.map(v => [v.id, v.nodes.map(n => n.target)]))}`);
}, out });
part('try');
await lot(browser, { check, visit });
part('lot');
await showroom(browser, { check, visit });
part('showroom');
await browser.close();
server.close();

// The HTML standard's own checker, which needs Java.
const jar = path.resolve('node_modules/vnu-jar/build/dist/vnu.jar');
const java = spawnSync('java', ['-version']);
if (java.error) {
  console.log('\n*** HTML CONFORMANCE CHECK SKIPPED: no Java on this machine ***\n');
} else {
  const some = pages.slice(0, 60);
  const run = spawnSync('java', ['-Xss4m', '-jar', jar, '--format', 'json', '--errors-only', ...some], { encoding: 'utf8', maxBuffer: 1 << 26 });
  let messages = [];
  try { messages = JSON.parse(run.stderr).messages; } catch { check(false, 'vnu: ' + run.stderr.slice(0, 400)); }
  check(messages.length === 0, 'vnu: ' + messages.slice(0, 5).map(m => `${path.relative(site, new URL(m.url).pathname)}:${m.lastLine} ${m.message}`).join('; '));
}

part('HTML conformance');
console.log(`${passed} passed, ${failures.length} failed`);
process.exit(failures.length ? 1 : 0);
