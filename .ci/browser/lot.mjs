// "Save for the lot". After saving, the host goes away: the page, a trailer that was opened and
// one that was chosen still load, with the machine, and say how old they are. When the host is
// back, a changed price shows at the first look, not the second, also where the host tells
// browsers to keep pages for a year. A trailer that the yard took down is no longer listed and
// can be removed. When it is turned off, the next build removes what was saved.
import fs from 'node:fs';
import http from 'node:http';
import os from 'node:os';
import path from 'node:path';
import { execFile } from 'node:child_process';

export async function lot(browser, { check, program }) {
  const root = path.resolve(import.meta.dirname, '../..');
  const dir = fs.mkdtempSync(path.join(os.tmpdir(), 'tarepage-lot-'));
  const site = path.join(dir, 'public');
  fs.cpSync(path.join(root, 'content'), path.join(dir, 'content'), { recursive: true });
  const yard = path.join(dir, 'content', 'yard.md');
  const plain = fs.readFileSync(yard, 'utf8').replace(/^save-for-the-lot:.*\n/m, '');
  const build = () => new Promise(done => execFile(program, ['-quiet', '-from', dir, '-to', site], (error, _, said) => {
    check(!error, 'lot: the yard builds: ' + said);
    done();
  }));
  fs.writeFileSync(yard, plain);
  await build();

  const types = { '.html': 'text/html; charset=utf-8', '.js': 'text/javascript; charset=utf-8' };
  let age = {};
  const server = http.createServer((req, res) => {
    const file = path.join(site, decodeURIComponent(new URL(req.url, 'http://x').pathname.slice('/lot/'.length)));
    if (!file.startsWith(site) || !fs.existsSync(file) || fs.statSync(file).isDirectory()) return res.writeHead(404).end();
    res.writeHead(200, { 'content-type': types[path.extname(file)] || 'application/octet-stream', 'cache-control': 'max-age=31536000', ...age });
    fs.createReadStream(file).pipe(res);
  });
  await new Promise(up => server.listen(0, '127.0.0.1', up));
  const base = `http://127.0.0.1:${server.address().port}/lot/`;
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const page = await context.newPage();
  // A service worker takes its time.
  const until = async (done, arg) => {
    for (let i = 0; i < 40 && !(await page.evaluate(done, arg)); i++) await page.waitForTimeout(200);
  };
  await page.goto(base + 'index.html');
  check(await page.evaluate(() => navigator.serviceWorker.getRegistration().then(r => !r)), 'lot: nothing is saved before somebody asks for it');
  await page.locator('#kept .turn button').click();
  await page.locator('#kept-says', { hasText: 'for now' }).waitFor();
  await page.reload();
  const link = page.locator('.card > a').first();
  const href = await link.getAttribute('href');
  await link.click();
  await page.waitForURL(/\/u\//);
  check(await page.locator('#stale').count() === 0, 'lot: a page from the host is not called a saved one');
  const kept = () => page.evaluate(async () => {
    const out = [];
    for (const name of await caches.keys()) for (const r of await (await caches.open(name)).keys()) out.push(r.url);
    return out;
  });
  // The worker saves a page a moment after it was shown.
  await until(async url => (await caches.match(url)) !== undefined, base + href);
  check((await kept()).every(u => u.startsWith(base) && !/\.(mp4|webm)$/.test(u)), 'lot: no recording is kept, and nothing of another host');

  // A trailer is chosen on its own page, with a machine filled in.
  const chosen = await page.evaluate(() => location.href);
  await page.waitForFunction(() => window.Statics);
  await page.locator('#mine .change').click();
  await page.locator('#m-w').fill('8,500');
  await page.locator('#m-l').fill('12 ft');
  await page.locator('#m-s').fill('70');
  await page.locator('#save').click();
  await page.locator('#bar-says', { hasText: 'Saved on this phone' }).waitFor();
  check(await page.locator('#save').getAttribute('aria-pressed') === 'true', 'lot: the button says that the trailer is saved');
  await page.goto(base + 'index.html');
  await page.locator('#kept li').first().waitFor();
  check(/saved [A-Z][a-z]+ [0-9]+/.test(await page.locator('#kept li').textContent()), 'lot: the yard page lists what was chosen with its day');

  await context.setOffline(true);
  await page.goto(chosen);
  await page.waitForFunction(() => document.querySelector('#mine-is').textContent !== '');
  check(await page.locator('#stale b').evaluate(e => parseFloat(getComputedStyle(e).fontSize)) >= 24, 'lot: a saved copy says its day in large type');
  check(/8,500 lb/.test(await page.locator('#mine').textContent()) && await page.locator('.reel img').first().evaluate(i => i.complete && i.naturalWidth > 0).catch(() => false), 'lot: without the host the machine, its answer and the photo are there');
  await page.goto(base + 'index.html');
  check(/Saved copy of .*may have changed/.test(await page.locator('#stale').textContent()), 'lot: without the host the yard page says how old it is');
  await page.locator('.chip[data-v="dump"]').click();
  await page.waitForFunction(() => / in all/.test(document.querySelector('#count').textContent));
  check((await page.locator('.card > a').allTextContents()).every(t => /dump/i.test(t)), 'lot: without the host it still finds');
  await page.goto(base + href);
  check(await page.locator('#stale').isVisible() && await page.locator('h1').isVisible(), 'lot: a trailer that was opened is there, and says how old it is');

  const unit = path.join(dir, 'content', 'units', path.basename(href, '.html') + '.md');
  fs.writeFileSync(unit, fs.readFileSync(unit, 'utf8').replace(/^price:.*$/m, 'price: $12,321'));
  await build();
  await context.setOffline(false);
  await page.goto(base + href);
  check((await page.locator('body').textContent()).includes('$12,321') && await page.locator('#stale').count() === 0, 'lot: back on the host the new price is there at the first look');
  await page.goto(base + 'index.html');
  check((await page.locator('#cards').textContent()).includes('$12,321'), 'lot: on the yard page too');

  // A page that a cache on the way kept for days says its day too.
  age = { date: 'Sun, 01 Nov 2026 10:00:00 GMT' };
  await page.goto(base + href);
  check(/Saved copy of November 1/.test(await page.locator('#stale').textContent()), 'lot: a page that the host keeps long says its day');
  age = {};

  // The yard takes the trailer down.
  const page1043 = path.join(site, href), down = fs.readFileSync(page1043);
  fs.rmSync(page1043);
  await page.goto(base + href);
  check(/No longer listed/.test(await page.locator('#stale').textContent()) && await page.locator('#try:visible').count() === 0, 'lot: a trailer that is gone is no longer listed, and gets no answer');
  await page.goto(base + 'index.html');
  await page.locator('#kept .is-no').waitFor();
  check(/no longer listed, seen [A-Z][a-z]+ [0-9]+; it counts as sold/.test(await page.locator('#kept li').textContent()), 'lot: the yard page says so with the day');
  await page.waitForFunction(h => document.querySelector(`.card a[href="${h}"]`).closest('.card').classList.contains('gone'), href);
  await page.locator('#kept li button').click();
  await page.waitForFunction(() => !document.querySelector('#kept li'));
  check(await page.locator('#kept li').count() === 0, 'lot: the buyer removes it');
  fs.writeFileSync(page1043, down);

  fs.writeFileSync(yard, plain.replace(/^as-of:/m, 'save-for-the-lot: no\nas-of:'));
  await build();
  // The copies are deleted at the next visit that finds the old worker idle. Chromium lets a
  // worker that is still saving a page finish first, so there are a second and a third visit.
  // A worker that goes away during a visit can leave it without an answer: the buyer tries again.
  for (let visit = 0; visit < 6; visit++) {
    const came = await page.goto(base + 'index.html', { waitUntil: 'domcontentloaded', timeout: 30_000 }).then(() => true, e => {
      if (e.name !== 'TimeoutError') throw e;
      return false;
    });
    if (!came) continue;
    await page.evaluate(() => navigator.serviceWorker.getRegistration().then(r => r && r.update()).catch(() => {}));
    await until(async () => !(await navigator.serviceWorker.getRegistration()) && (await caches.keys()).length === 0);
    if (await page.evaluate(async () => !(await navigator.serviceWorker.getRegistration()) && (await caches.keys()).length === 0)) break;
  }
  const left = await page.evaluate(async () => JSON.stringify([!!(await navigator.serviceWorker.getRegistration()), await caches.keys()]));
  check(left === '[false,[]]', 'lot: turned off, the next build takes the copies back: ' + left);
  // The visit that deleted the copies may itself have been served from one.
  await page.goto(base + 'index.html');
  check(await page.locator('#kept').count() === 0, 'lot: and offers them no more');
  await context.close();
  server.close();
  fs.rmSync(dir, { recursive: true, force: true });
}
