// Opens HTML files in one Chromium, in every width and colour scheme asked for, and prints as JSON
// what the browser and axe-core say of each. The page's own policy stays in force.
// The first two files are shown in all four looks, the others in two.
// usage: node browse.mjs NODE_MODULES CHROMIUM PROFILE FILE...
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

const [modules, executablePath, profile, ...files] = process.argv.slice(2);
const require = createRequire(path.join(path.resolve(modules), 'axe.cjs'));
const { chromium } = require('playwright-core');
const axe = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');
const looks = [
  { colorScheme: 'light', width: 1200 },
  { colorScheme: 'dark', width: 1200 },
  { colorScheme: 'light', width: 320 },
  { colorScheme: 'dark', width: 320 },
];

// Runs in the page: texts that nobody would see, list markers, fonts that failed.
function look() {
  const unseen = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    if (!node.data.trim() || node.parentElement.matches('script')) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    const box = range.getBoundingClientRect();
    const style = getComputedStyle(node.parentElement);
    if (box.width < 1 || box.height < 1 || style.visibility !== 'visible' || style.opacity !== '1')
      unseen.push(node.data.trim());
  }
  return {
    unseen,
    overflow: document.documentElement.scrollWidth - window.innerWidth,
    markers: [...document.querySelectorAll('.steps')].map((list) => getComputedStyle(list).listStyleType),
    broken: [...document.images].filter((image) => !image.naturalWidth).map((image) => image.alt),
    fonts: [...document.fonts].map((font) => font.status),
    title: document.title,
  };
}

async function visit(browser, file, { colorScheme, width }) {
  const page = await browser.newPage();
  await page.setViewportSize({ width, height: 900 });
  await page.emulateMedia({ colorScheme });
  const said = [];
  const requests = [];
  page.on('console', (message) => said.push(message.text()));
  page.on('pageerror', (error) => said.push(String(error)));
  page.on('dialog', (dialog) => {
    said.push(`dialog: ${dialog.message()}`);
    dialog.dismiss();
  });
  page.on('request', (request) => {
    if (!/^(file|data):/.test(request.url())) requests.push(request.url());
  });
  await page.goto(pathToFileURL(path.resolve(file)).href);
  await page.evaluate(() => document.fonts.ready.then(() => null));
  const told = await page.evaluate(look);
  const heard = [...said];
  await page.evaluate(axe);
  const result = await page.evaluate(() =>
    axe.run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
      resultTypes: ['violations', 'incomplete'],
    }),
  );
  const violations = result.violations.map(
    (rule) => `${rule.id}: ${rule.nodes.map((node) => node.target.join(' ')).join(', ')}`,
  );
  const undecided = result.incomplete.map((rule) => rule.id);
  await page.close();
  return { file, colorScheme, width, ...told, said: heard, requests, violations, undecided };
}

async function print(browser, file) {
  const page = await browser.newPage();
  await page.goto(pathToFileURL(path.resolve(file)).href);
  await page.pdf({ path: `${file}.pdf`, preferCSSPageSize: true, printBackground: false });
  await page.close();
}

const browser = await chromium.launchPersistentContext(profile, {
  executablePath,
  headless: true,
  offline: true,
  args: [
    '--no-sandbox',
    '--disable-gpu',
    '--disable-quic',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
  ],
});
try {
  const told = [];
  for (const [index, file] of files.entries()) {
    for (const each of index < 2 ? looks : looks.slice(1, 3)) told.push(await visit(browser, file, each));
    await print(browser, file);
  }
  console.log(JSON.stringify(told));
} finally {
  await browser.close();
}
