// What a customer waits for: LCP, CLS and the worst interaction with the processor slowed four
// times, on a unit page and on a yard page. It is the median of five runs, less that of a blank
// page on the same machine. node measure.mjs SITE BIGSITE [-must]. The budget is in
// docs/design.md, "Pages"; with -must, going over it is a failure.
import { chromium } from 'playwright-core';
import fs from 'node:fs';
import http from 'node:http';
import path from 'node:path';
import zlib from 'node:zlib';

const must = process.argv.includes('-must');
const [site, big] = process.argv.slice(2).filter(a => !a.startsWith('-')).map(p => path.resolve(p));
const browserPath = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find(p => fs.existsSync(p));
if (!browserPath) {
  console.log('\n*** MEASUREMENT SKIPPED: no Chromium on this machine (apt-get install chromium) ***\n');
  process.exit(must ? 1 : 0);
}
const types = { '.html': 'text/html; charset=utf-8', '.js': 'text/javascript; charset=utf-8', '.webp': 'image/webp', '.jpg': 'image/jpeg', '.png': 'image/png' };
const server = http.createServer((req, res) => {
  const [, which, ...rest] = new URL(req.url, 'http://x').pathname.split('/');
  if (which === 'blank') return res.writeHead(200, { 'content-type': types['.html'] }).end('<!doctype html><html lang="en"><title>Blank</title><p>Blank.</p><button type="button">Press</button></html>');
  const file = path.join(which === 'big' ? big : site, decodeURIComponent(rest.join('/')));
  if (!fs.existsSync(file) || fs.statSync(file).isDirectory()) return res.writeHead(404).end();
  res.writeHead(200, { 'content-type': types[path.extname(file)] || 'application/octet-stream', 'content-encoding': 'gzip' });
  res.end(zlib.gzipSync(fs.readFileSync(file)));
});
await new Promise(up => server.listen(0, '127.0.0.1', up));
const base = `http://127.0.0.1:${server.address().port}/`;
const browser = await chromium.launch({ executablePath: browserPath, args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'] });

// The default phone of Lighthouse: a round trip of 150 ms, 1.6 Mbit/s, processor slowed four times.
async function once(url, act) {
  const context = await browser.newContext({ viewport: { width: 412, height: 823 }, deviceScaleFactor: 1.75 });
  const page = await context.newPage();
  const cdp = await context.newCDPSession(page);
  await cdp.send('Network.enable');
  await cdp.send('Network.emulateNetworkConditions', { offline: false, latency: 150, downloadThroughput: 1.6 * 1024 * 1024 / 8, uploadThroughput: 750 * 1024 / 8 });
  await cdp.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  await page.addInitScript(() => {
    window.seen = { lcp: 0, cls: 0, worst: 0 };
    new PerformanceObserver(l => l.getEntries().forEach(e => { window.seen.lcp = e.startTime; })).observe({ type: 'largest-contentful-paint', buffered: true });
    new PerformanceObserver(l => l.getEntries().forEach(e => { if (!e.hadRecentInput) window.seen.cls += e.value; })).observe({ type: 'layout-shift', buffered: true });
    new PerformanceObserver(l => l.getEntries().forEach(e => { if (e.interactionId) window.seen.worst = Math.max(window.seen.worst, e.duration); })).observe({ type: 'event', durationThreshold: 16, buffered: true });
  });
  await page.goto(url, { waitUntil: 'load' });
  await page.waitForTimeout(1500);
  const lcp = await page.evaluate(() => window.seen.lcp);
  await act(page);
  await page.waitForTimeout(800);
  const seen = await page.evaluate(() => window.seen);
  await context.close();
  return { lcp, cls: seen.cls, worst: seen.worst };
}
const median = list => [...list].sort((a, b) => a - b)[list.length >> 1];
async function five(url, act) {
  const runs = [];
  for (let i = 0; i < 5; i++) runs.push(await once(url, act));
  return { lcp: median(runs.map(r => r.lcp)), cls: Math.max(...runs.map(r => r.cls)), worst: median(runs.map(r => r.worst)) };
}

const unit = fs.readdirSync(path.join(site, 'u')).filter(f => f.endsWith('.html')).sort()[0];
const press = async page => { await page.locator('button').first().click(); };
const open = async page => { for (const s of (await page.locator('summary:visible').all()).slice(0, 4)) await s.click(); };
const find = async page => {
  await page.locator('.chip[data-f="kind"]').nth(1).click();
  await page.waitForTimeout(600);
  await page.locator('#needs summary').click();
  await page.locator('.chip[data-f="condition"]').first().click();
  await page.waitForTimeout(300);
  await page.locator('#picked .drop').first().click();
  await page.waitForTimeout(300);
  if (await page.locator('#more').isVisible()) await page.locator('#more').click();
};
let over = 0;
const blank = await five(base + 'blank', press);
console.log('blank control', blank);
for (const [name, url, act, most] of [['a unit page', 'site/u/' + unit, open, { lcp: 1300, cls: .01, worst: 50 }], ['the yard page, demo', 'site/index.html', find, { lcp: 1300, cls: .01, worst: 100 }],
  ['the yard page, 5,000', 'big/index.html', find, { lcp: 1300, cls: .01, worst: 100 }]]) {
  if (url.startsWith('big/') && !big) continue;
  const got = await five(base + url, act);
  // On the machine on which the budget was found, a blank page paints after 0.65 s. What this
  // machine needs more for a blank page does not count.
  const less = { lcp: got.lcp - Math.max(0, blank.lcp - 650), cls: got.cls, worst: got.worst - Math.max(0, blank.worst - 16) };
  const bad = Object.keys(most).filter(k => less[k] > most[k]);
  console.log(name, got, 'less the control', less, bad.length ? 'OVER: ' + bad.join(', ') : 'within', most);
  if (bad.length) over++;
}
// The tap that waits for a frame has its effect: the page shows more cards.
if (big) {
  const page = await browser.newPage({ viewport: { width: 412, height: 823 } });
  await page.goto(base + 'big/index.html');
  await page.locator('#more').click();
  await page.waitForFunction(() => document.querySelectorAll('.card').length === 24, null, { timeout: 10000 }).catch(() => { console.log('OVER: "Show 12 more" shows no more'); over++; });
}
await browser.close();
server.close();
process.exit(must && over ? 1 : 0);
