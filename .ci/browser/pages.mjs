// Every page of the site: at three widths with scripts, once without them, and its links.
import axe from 'axe-core';
import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

// WCAG 2.2, 1.4.12 Text Spacing: nothing may be lost with these.
export const spacing = '* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important; } p { margin-bottom: 2em !important; }';

// The text of a page, without the parts that need scripts and are marked so.
const said = page => page.evaluate(() => {
  const copy = document.body.cloneNode(true);
  copy.querySelectorAll('.scripted, .pick, script, noscript, style').forEach(e => e.remove());
  return copy.textContent.replace(/\s+/g, ' ');
});

// Screenshots for a person to look at: one of each kind of page.
const pictured = /^(index|how-we-figure|404|(u|figures|lot|handover)[\\/]sb-1043)\.html$/;

// With TAREPAGE_LONG every page of every trailer is opened; without it a part of them.
export const long = !!process.env.TAREPAGE_LONG;

// Every fourth of a list of trailers' pages. The nightly checks open all of them.
export const some = list => long ? list : list.filter((_, i) => i % 4 === 0);

// Pages of one template that differ only in numbers are opened as a sample: the first, the
// heaviest and the last of their folder. The links of all of them are checked.
export function sampled(site, pages) {
  if (long) return [...pages]; // a list of its own: whoever opens the pages takes them off it
  const groups = new Map();
  for (const f of pages) {
    const name = path.relative(site, f);
    const group = path.dirname(name) === '.' ? name.replace(/^kind-.*/, 'kind') : path.dirname(name);
    groups.set(group, [...(groups.get(group) || []), f]);
  }
  const heaviest = list => list.slice().sort((a, b) => fs.statSync(b).size - fs.statSync(a).size)[0];
  return [...groups].flatMap(([group, list]) => [...new Set([...(group === 'u' ? some(list) : [list[0]]), heaviest(list), list.at(-1)])]);
}

// Opens the pages one after the other in windows that stay open, since a new window costs
// more than a page. Several such lanes share the list, so that one renders while another waits.
export async function everyPage(browser, tools) {
  const { site, pages } = tools;
  for (const file of pages) links(file, tools);
  const left = sampled(site, pages);
  await Promise.all([1, 2, 3].map(() => lane(browser, left, tools)));
}

async function lane(browser, left, tools) {
  const open = async (width, scripts) => {
    const context = await browser.newContext({ viewport: { width, height: 844 }, javaScriptEnabled: scripts });
    return { width, ...await tools.open(context) };
  };
  const windows = [await open(320, true), await open(390, true), await open(1280, true)];
  const plain = await open(390, false);
  while (left.length) {
    const file = left.shift();
    let words;
    for (const w of windows) words = await withScripts(w, file, tools) ?? words;
    await withoutScripts(plain, file, words, tools);
  }
  for (const w of [...windows, plain]) await w.page.context().close();
}

// Scripts on, from a folder on disk. At 390 px it returns the text of the page.
async function withScripts({ page, width, go }, file, { site, out, check }) {
  const name = path.relative(site, file);
  const url = pathToFileURL(file).href;
  const asked = await go(url, `${name} at ${width}`);
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
  let words;
  if (width === 390) {
    words = await said(page);
    await page.evaluate(() => document.querySelectorAll('details').forEach(d => { d.open = true; }));
    await page.evaluate(axe.source);
    const found = await page.evaluate(() => axe.run(document, {
      preload: false, // of styles, which pages in a folder may not ask for by script
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
      rules: { 'target-size': { enabled: true } },
    }));
    check(found.violations.length === 0, `${name}: axe: ` + found.violations.map(v => `${v.id} (${v.nodes[0].html.slice(0, 120)})`).join('; '));
  }
  if (pictured.test(name) && width !== 320) {
    await page.screenshot({ path: path.join(out, `${name.replace(/[\\/]/g, '-').replace('.html', '')}-${width}.png`), fullPage: true });
  }
  return words;
}

// Scripts off: the page says the same.
async function withoutScripts({ page, go }, file, words, { site, check }) {
  const name = path.relative(site, file);
  await go(pathToFileURL(file).href, `${name} without scripts`);
  check(await said(page) === words, `${name} says the same without scripts`);
  check(await page.locator('.scripted:visible, .pick:visible').count() === 0, `${name} without scripts shows nothing that needs them`);
  // One line says what scripts would add, where there would be a calculator and nowhere else.
  const lines = await page.locator('.unscripted:visible').count(), forms = await page.locator('#try, #find').count();
  check(lines === forms, `${name} without scripts says ${lines} times what scripts would add, with ${forms} calculators`);
}

// Each link leads to a file of the site and, where it names a place, to that place.
function links(file, { site, check }) {
  const name = path.relative(site, file);
  const html = fs.readFileSync(file, 'utf8');
  check(!/\s(src|srcset|poster)="(https?:)?\/\//.test(html) && !/@import|url\(\s*['"]?https?:/.test(html), `${name} names no file of another host`);
  for (const [, href] of html.matchAll(/\shref="([^"]*)"/g)) {
    let plain = href.replaceAll('&amp;', '&');
    // The page for an unknown address is shown at any depth, so its links begin at the root
    // of the host, with the folder of the site's own address (for the demo the root itself).
    const atRoot = path.basename(name) === '404.html' && plain.startsWith('/');
    if (atRoot) plain = plain.slice(1);
    if (/^(tel|sms|mailto|https?|data):/.test(plain)) continue;
    check(!plain.startsWith('/'), `${name}: ${plain} is relative`);
    const [to, place] = plain.split('#');
    const target = to === '' ? file : path.join(atRoot ? site : path.dirname(file), decodeURIComponent(to));
    const there = fs.existsSync(target) && fs.statSync(target).isFile();
    check(there, `${name}: ${plain} leads to a file`);
    // A fragment with an equals sign is not a place: it is a state of the page or a time in a video.
    if (there && place && !place.includes('=')) check(fs.readFileSync(target, 'utf8').includes(`id="${place}"`), `${name}: ${plain} leads to a place`);
  }
}
