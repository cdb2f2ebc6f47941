// The pages in Spanish, which the demo does not have: those of a first yard, whose words are longer
// than in English. Each is opened as the pages in English are, with text twice as large, and on paper.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { everyPage } from './pages.mjs';

export async function spanish(browser, tools) {
  const { program, command, conformance, walk, check } = tools;
  const yard = fs.mkdtempSync(path.join(os.tmpdir(), 'tarepage-es-')), site = path.join(yard, 'public');
  const run = async (...args) => check(!(await command(program, args, { cwd: yard })).error, `Spanish: ${args.join(' ')}`);
  await run('first-yard', '-from', yard);
  const file = path.join(yard, 'content', 'yard.md');
  fs.writeFileSync(file, fs.readFileSync(file, 'utf8').replace('---\n', '---\nspanish: yes\n'));
  await run('-from', yard, '-to', site, '-quiet');
  const pages = walk(path.join(site, 'es')).filter(f => f.endsWith('.html')).sort();
  check(pages.length >= 8, `Spanish: ${pages.length} pages`);
  // The nightly checks open every page in all ways. Before a push it is the yard's, a trailer's and
  // the hand-over card, which say most.
  const most = pages.filter(f => /^(index\.html|u|handover)/.test(path.relative(path.join(site, 'es'), f)));
  check(most.length >= 3, `Spanish: ${most.length} of the pages that say most`);
  await everyPage(browser, { ...tools, site, pages: process.env.TAREPAGE_LONG ? pages : most });
  await conformance(pages);
  await large(browser, pages, check);
  await chosen(browser, site, check);
  fs.rmSync(yard, { recursive: true, force: true });
}

// WCAG 2.2, 1.4.4 Resize Text: twice as large, and nothing is cut or leaves the page.
async function large(browser, pages, check) {
  const context = await browser.newContext({ viewport: { width: 640, height: 844 } });
  const page = await context.newPage();
  for (const file of pages) {
    await page.goto(pathToFileURL(file).href);
    await page.evaluate(() => { document.documentElement.style.fontSize = '200%'; });
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    check(wide <= 640, `es/${path.basename(file)} with text at 200% is ${wide} px wide`);
  }
  // A sheet takes as many pages as in English; an example's card says more than a trailer's for sale.
  const printed = async file => {
    await page.goto(pathToFileURL(file).href);
    return (await page.pdf({ format: 'Letter', preferCSSPageSize: false })).toString('latin1').match(/\/Type\s*\/Page\b/g).length;
  };
  for (const file of pages.filter(f => path.basename(path.dirname(f)) === 'lot')) {
    const english = path.join(path.dirname(file), '..', '..', 'lot', path.basename(file));
    check(await printed(file) <= await printed(english), `${file} takes more paper than in English`);
  }
  await context.close();
}

// The first visit follows the phone's language, the link changes it, and the phone remembers.
async function chosen(browser, site, check) {
  const first = pathToFileURL(path.join(site, 'index.html')).href;
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, locale: 'es-MX' });
  const page = await context.newPage();
  const lang = async want => check(await page.waitForFunction(l => document.documentElement.lang === l, want).then(() => true, () => false), `Spanish: the page is in ${want}`);
  await page.goto(first + '#fits=3500');
  await lang('es-US');
  check(page.url().endsWith('#fits=3500'), `Spanish: ${page.url()} keeps what follows the #`);
  await page.click('a.language');
  await lang('en-US');
  check(page.url().endsWith('#fits=3500'), `Spanish: ${page.url()} keeps it on the way back`);
  await page.goto(first);
  await lang('en-US');
  await context.close();
}
