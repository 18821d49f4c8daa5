// Works through one handout with the keyboard alone, opens it again, then without scripts, and
// prints as JSON what was seen. The page's own policy stays in force.
// usage: node tick.mjs NODE_MODULES CHROMIUM PROFILE FILE OTHER_FILE
import { createRequire } from 'node:module';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

const [modules, executablePath, profile, file, other] = process.argv.slice(2);
const require = createRequire(path.join(path.resolve(modules), 'axe.cjs'));
const { chromium } = require('playwright-core');
const options = { executablePath, headless: true, offline: true, args: ['--no-sandbox', '--disable-gpu'] };
const address = (name) => pathToFileURL(path.resolve(name)).href;
const named = 'document.activeElement.getAttribute("aria-labelledby")';

// Presses Tab until the focus is on what `selector` names; counts the presses.
async function tabTo(page, selector) {
  for (let presses = 1; presses < 400; presses += 1) {
    await page.keyboard.press('Tab');
    if (await page.evaluate((which) => document.activeElement.matches(which), selector)) return presses;
  }
  throw new Error(`Tab never comes to ${selector}`);
}

const state = (page) =>
  page.evaluate(() => ({
    ticked: [...document.querySelectorAll('.diary input[type=checkbox]')].filter((each) => each.checked).length,
    pain: [...document.querySelectorAll('.diary input[type=number]')].map((each) => each.value).filter(Boolean),
  }));

const context = await chromium.launchPersistentContext(profile, options);
const told = { requests: [], said: [] };
try {
  const page = await context.newPage();
  page.on('request', (request) => {
    if (!/^(file|data):/.test(request.url())) told.requests.push(request.url());
  });
  page.on('pageerror', (error) => told.said.push(String(error)));
  page.on('console', (message) => told.said.push(message.text()));
  await page.goto(address(file));

  await tabTo(page, '.clock button');
  told.clockName = await page.evaluate(
    `${named}.split(' ').map((id) => document.getElementById(id).textContent.trim()).join(' ')`,
  );
  await page.keyboard.press('Enter');
  told.running = await page.evaluate('document.activeElement.textContent');
  await page.waitForTimeout(1500);
  told.face = await page.evaluate('document.querySelector("[role=timer]").textContent');
  await page.keyboard.press('Space');
  told.stopped = await page.evaluate('document.activeElement.textContent');

  await tabTo(page, '.diary input[type=checkbox]');
  told.cellName = await page.evaluate(
    `${named}.split(' ').map((id) => document.getElementById(id).textContent.trim()).join(', ')`,
  );
  told.outline = await page.evaluate('getComputedStyle(document.activeElement).outlineStyle');
  await page.keyboard.press('Space');
  await tabTo(page, '.diary input[type=number]');
  await page.keyboard.type('3');
  await page.keyboard.press('Tab');
  await page.keyboard.type('77');
  await page.keyboard.press('Tab');
  told.ticked = await state(page);
  told.sizes = await page.evaluate(() =>
    [...document.querySelectorAll('button, input')].map((each) => {
      const box = each.getBoundingClientRect();
      return Math.min(box.width, box.height);
    }),
  );

  await page.goto(address(other));
  told.elsewhere = await state(page);
  await page.goto(address(file));
  told.again = await state(page);
  await tabTo(page, '.kept button');
  await page.keyboard.press('Enter');
  await page.reload();
  told.cleared = await state(page);

  told.cookies = (await context.cookies()).length;
} finally {
  await context.close();
}
const browser = await chromium.launch(options);
try {
  const plain = await (await browser.newContext({ javaScriptEnabled: false })).newPage();
  await plain.goto(address(file));
  told.without = {
    controls: await plain.locator('button, input').count(),
    cells: await plain.locator('.diary td').count(),
    steps: await plain.locator('.steps li').count(),
  };
} finally {
  await browser.close();
}
console.log(JSON.stringify(told));
