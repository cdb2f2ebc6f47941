// The browser checks: every page of the built site in Chromium, as a customer with a phone
// sees it. Without a browser the checks are skipped with a loud message; with -must that is a
// failure. Parts run next to each other, since each of them mostly waits. Each one prints what
// it took from its beginning to its end.
//
//   node check.mjs [-must] SITE OUT [PART ...]   all parts, or the named ones
//
// With TAREPAGE_LONG set, pages are not sampled: each trailer's own pages are opened.
import { chromium } from 'playwright-core';
import axe from 'axe-core';
import fs from 'node:fs';
import http from 'node:http';
import os from 'node:os';
import path from 'node:path';
import { execFile } from 'node:child_process';
import { find } from './find.mjs';
import { colors, keyboard, paper, photos, recording, served, steady, twoScreens } from './looks.mjs';
import { lot } from './lot.mjs';
import { everyPage, sampled, some, spacing } from './pages.mjs';
import { showroom } from './showroom.mjs';
import { spanish } from './spanish.mjs';
import { tryout } from './try.mjs';
import { walkBack } from './walk.mjs';

const must = process.argv.includes('-must');
const [from, to, ...only] = process.argv.slice(2).filter(a => !a.startsWith('-'));
const site = path.resolve(from), out = path.resolve(to);
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
// The parts run next to each other and next to Go's tests: what is slow is not wrong. A check
// fails for what a page shows, not for how long two busy cores took to show it.
const PATIENCE = 120_000;
const newContext = browser.newContext.bind(browser);
browser.newContext = async options => {
  const context = await newContext(options);
  context.setDefaultTimeout(PATIENCE);
  return context;
};

// A page in a context. What goes wrong in it is reported under the name of the page that it
// shows. The function go opens an address and returns what the page asked for.
async function open(context) {
  const page = await context.newPage();
  let asked = [], name = '';
  page.on('request', r => asked.push(r.url()));
  page.on('console', m => check(m.type() !== 'error' && m.type() !== 'warning', `${name}: console: ${m.text()}`));
  page.on('pageerror', e => check(false, `${name}: ${e}`));
  const go = async (url, as) => {
    asked = [];
    name = as;
    await page.goto(url);
    return asked;
  };
  return { page, go };
}
async function visit(context, url, name) {
  const { page, go } = await open(context);
  return { page, asked: await go(url, name) };
}
async function axeEverything(page, name) {
  await page.evaluate(axe.source);
  const r = await page.evaluate(() => window.axe.run({ rules: { 'target-size': { enabled: true } } }));
  check(r.violations.length === 0, `${name}: axe: ${JSON.stringify(r.violations.map(v => [v.id, v.nodes.map(n => n.target)]))}`);
}

// Runs a command and returns how it ended and what it said, without holding up the others.
const command = (name, args, options) => new Promise(done =>
  execFile(name, args, { maxBuffer: 1 << 26, ...options }, (error, stdout, stderr) => done({ error, stdout, stderr })));

// The HTML standard's own checker, which needs Java.
async function conformance(files = sampled(site, pages)) {
  if ((await command('java', ['-version'])).error) {
    console.log('\n*** HTML CONFORMANCE CHECK SKIPPED: no Java on this machine ***\n');
    return;
  }
  const jar = path.resolve('node_modules/vnu-jar/build/dist/vnu.jar');
  const { stderr } = await command('java', ['-Xss4m', '-jar', jar, '--format', 'json', '--errors-only', ...files]);
  let messages = [];
  try { messages = JSON.parse(stderr).messages; } catch { check(false, 'vnu: ' + stderr.slice(0, 400)); }
  // The checker's list of CSS is older than container queries, a W3C standard (CSS Containment 3).
  messages = messages.filter(m => !/container-type|@container/.test(m.message));
  check(messages.length === 0, 'vnu: ' + messages.slice(0, 5).map(m => `${path.basename(new URL(m.url).pathname)}:${m.lastLine} ${m.message}`).join('; '));
}

// The parts that build yards of their own share one program.
const bin = fs.mkdtempSync(path.join(os.tmpdir(), 'tarepage-bin-'));
const program = path.join(bin, process.platform === 'win32' ? 'build.exe' : 'build');
const built = await command('go', ['build', '-o', program, './cmd/build'], { cwd: path.resolve(import.meta.dirname, '../..') });
check(!built.error, 'the command builds: ' + built.stderr);

// The parts that take longest come first.
const tools = { site, base, out, pages, some, check, open, visit, spacing, axe, program };
const parts = [
  ['every page', () => everyPage(browser, tools)],
  ['HTML conformance', () => conformance()],
  ['find', () => find(browser, tools)],
  ['showroom', () => showroom(browser, tools)],
  ['walk back', () => walkBack(browser, { ...tools, axe: axeEverything })],
  ['Spanish', () => spanish(browser, { ...tools, command, conformance, walk })],
  ['lot', () => lot(browser, tools)],
  ['paper', () => paper(browser, tools)],
  ['colors', () => colors(browser, tools)],
  ['try', () => tryout(browser, { ...tools, axe: axeEverything })],
  ['two screens', () => twoScreens(browser, tools)],
  ['steady', () => steady(browser, tools)],
  ['photos', () => photos(browser, tools)],
  ['recording', () => recording(browser, tools)],
  ['served', () => served(browser, tools)],
  ['keyboard', () => keyboard(browser, tools)],
];
const waiting = parts.filter(([name]) => only.length === 0 || only.includes(name));
check(waiting.length >= only.length, `every part that is named is one of: ${parts.map(([name]) => name).join(', ')}`);
await Promise.all([1, 2, 3, 4].map(async () => {
  while (waiting.length) {
    const [name, run] = waiting.shift();
    const began = performance.now();
    await run().catch(e => check(false, `${name}: ${e.stack}`));
    console.log(`${((performance.now() - began) / 1000).toFixed(1).padStart(7)} s  ${name}`);
  }
}));
await browser.close();
server.close();
fs.rmSync(bin, { recursive: true, force: true });
console.log(`${passed} passed, ${failures.length} failed`);
process.exit(failures.length ? 1 : 0);
