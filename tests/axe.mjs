// Prints, as JSON, what axe-core finds in one HTML file, and every address the page asked for.
// usage: node axe.mjs NODE_MODULES CHROMIUM FILE
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

const [modules, executablePath, file] = process.argv.slice(2);
const require = createRequire(path.join(path.resolve(modules), 'axe.cjs'));
const { chromium } = require('playwright-core');
const axe = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');

const browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] });
try {
  const context = await browser.newContext({ offline: true, bypassCSP: true });
  const page = await context.newPage();
  const requests = [];
  page.on('request', (request) => {
    if (!/^(file|data):/.test(request.url())) requests.push(request.url());
  });
  await page.goto(pathToFileURL(path.resolve(file)).href);
  await page.evaluate(axe);
  const result = await page.evaluate(() =>
    axe.run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
    }),
  );
  const told = (rule) => ({
    id: rule.id,
    help: rule.help,
    targets: rule.nodes.map((node) => node.target.join(' ')),
  });
  console.log(
    JSON.stringify({
      violations: result.violations.map(told),
      incomplete: result.incomplete.map(told),
      passes: result.passes.map((rule) => rule.id),
      requests,
    }),
  );
} finally {
  await browser.close();
}
