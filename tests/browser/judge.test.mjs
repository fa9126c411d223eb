// The judges judged: a page with every fault must not pass.
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { accessibilityFaults, greyLevels, openPage, pdfPages, phone, startBrowser } from './browser.mjs';

const folder = mkdtempSync(join(tmpdir(), 'drumlin-judge-'));
const file = join(folder, 'bad.html');
writeFileSync(file, `<!DOCTYPE html><html lang="en"><head><title>Bad</title></head><body>
<main><h1 style="color:#bbb;background:#fff">Pale</h1><img src="https://example.invalid/a.png">
<p style="width:2000px">wide</p><p style="color:#c00">red</p>
<div style="break-before:page;height:1px"></div><p style="break-before:page">end</p></main>
<script>console.error('broken')</script></body></html>`);

let browser;
before(async () => { browser = await startBrowser(process.env.DRUMLIN_CHROMIUM); });
after(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

test('a page with every fault is found out', async () => {
  const { page, troubles } = await openPage(browser, file, { viewport: phone });
  const faults = (await accessibilityFaults(page)).join('\n');
  assert.match(faults, /color-contrast/);
  assert.match(faults, /image-alt/);
  assert.ok(troubles.some((trouble) => trouble.includes('example.invalid')));
  assert.ok(troubles.some((trouble) => trouble.includes('broken')));
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth) > phone.width);
  const sheets = pdfPages(await page.pdf({ format: 'A4' }));
  assert.equal(sheets.length, 3);
  assert.deepEqual(sheets.map((commands) => /T[jJ]/.test(commands)), [true, false, true]);
  assert.equal((await greyLevels(browser, page)).coloured, 0);
  await page.close();
});
