// What moves on a lesson: keys move the sliders, sliders move numbers and pictures, fast enough.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { after, before, describe, test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { openPage, startBrowser } from './browser.mjs';

const examples = join(dirname(fileURLToPath(import.meta.url)), '../../cases/examples');

describe('the lesson of panel-soft', () => {
  let browser;
  let folder;
  let file;
  before(async () => {
    folder = mkdtempSync(join(tmpdir(), 'drumlin-lesson-'));
    file = join(folder, 'lesson.html');
    execFileSync(process.env.DRUMLIN_PROGRAM,
      ['lesson', join(examples, 'panel-soft.toml'), '--out', file, '--quiet']);
    browser = await startBrowser(process.env.DRUMLIN_CHROMIUM);
  });
  after(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  const number = (page, id) => page.$eval(`#value-${id}`, (cell) => parseFloat(cell.textContent));

  test('loads the drum more for every step of interference that a key adds', async () => {
    const { page, troubles } = await openPage(browser, file);
    await page.focus('#slide-depth');
    let load = await number(page, 'line_load');
    const picture = await page.$eval('#lab svg', (svg) => svg.innerHTML);
    for (let i = 0; i < 3; ++i) {
      await page.keyboard.press('ArrowRight');
      const next = await number(page, 'line_load');
      assert.ok(next > load, `${next} N/mm after ${load} N/mm`);
      load = next;
    }
    assert.notEqual(await page.$eval('#lab svg', (svg) => svg.innerHTML), picture);
    await page.keyboard.press('Home');
    assert.ok(await number(page, 'line_load') < load);
    await page.close();
    assert.deepEqual(troubles, []);
  });

  // A twentieth of what a busy two-core machine shows: below it a learner would see the page stick.
  test('follows a slider at least 30 times a second', async () => {
    const { page, troubles } = await openPage(browser, file);
    const seconds = await page.evaluate(() => {
      const slider = document.getElementById('slide-cover');
      const start = performance.now();
      for (let i = 0; i < 300; ++i) {
        slider.value = i % (Number(slider.max) + 1);
        slider.dispatchEvent(new Event('input', { bubbles: true }));
        document.getElementById('lab').getBoundingClientRect();  // lays the page out each time
      }
      return (performance.now() - start) / 1000;
    });
    console.log(`300 updates in ${seconds.toFixed(2)} s`);
    assert.ok(300 / seconds >= 30, `${(300 / seconds).toFixed(0)} updates a second`);
    await page.close();
    assert.deepEqual(troubles, []);
  });
});
