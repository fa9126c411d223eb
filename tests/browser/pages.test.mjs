// Every page that drumlin writes, in a browser. A kind of page joins by a file in pages/.
import assert from 'node:assert/strict';
import { mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { after, before, describe, test } from 'node:test';
import { fileURLToPath, pathToFileURL } from 'node:url';
import {
  accessibilityFaults, desk, greyLevels, openPage, pdfPages, phone, startBrowser,
} from './browser.mjs';

const here = dirname(fileURLToPath(import.meta.url));
const program = process.env.DRUMLIN_PROGRAM;
const chromium = process.env.DRUMLIN_CHROMIUM;
assert.ok(program && chromium, 'run it by tests/browser/run.sh or by ctest -L browser');

const folder = mkdtempSync(join(tmpdir(), 'drumlin-pages-'));
const all = [];
for (const file of readdirSync(join(here, 'pages')).filter((name) => name.endsWith('.mjs')).sort()) {
  const kind = await import(pathToFileURL(join(here, 'pages', file)).href);
  all.push(...kind.pages({ program, examples: join(here, '../../cases/examples'), folder }));
}

let browser;
before(async () => { browser = await startBrowser(chromium); });
after(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Opens, looks, closes; a page that complains or asks the network for something fails. */
async function look(file, options, ask) {
  const { page, troubles } = await openPage(browser, file, options);
  try {
    await ask(page);
  } finally {
    await page.close();
  }
  assert.deepEqual(troubles, []);
}

for (const { name, file, says, moving, most = 3 * 1024 * 1024 } of all) {
  describe(name, () => {
    test('is not larger than it may be', () => assert.ok(statSync(file).size <= most));

    for (const viewport of [phone, desk]) {
      test(`has no fault that axe-core finds, ${viewport.width} px wide, folds open and shut`, async () => {
        await look(file, { viewport }, async (page) => {
          assert.deepEqual(await accessibilityFaults(page), []);
          await page.evaluate(() => document.querySelectorAll('details').forEach((fold) => { fold.open = true; }));
          assert.deepEqual(await accessibilityFaults(page), []);
        });
      });
    }

    test('does not run over the side of a phone', async () => {
      await look(file, { viewport: phone }, async (page) => {
        await page.evaluate(() => document.querySelectorAll('details').forEach((fold) => { fold.open = true; }));
        const [wide, seen] = await page.evaluate(
          () => [document.documentElement.scrollWidth, document.documentElement.clientWidth]);
        assert.ok(wide <= seen, `${wide} px on ${seen} px`);
      });
    });

    test('is complete with scripts off', async () => {
      await look(file, { scripts: false }, async (page) => {
        const html = await page.content();
        for (const words of says) assert.ok(html.includes(words), words);
        if (!moving) return;
        // One moment is shown, no control that would do nothing.
        const box = await (await page.$(`${moving.group} [${moving.attribute}].now`)).boundingBox();
        assert.ok(box && box.width > 0);
        assert.equal(await (await page.$(`${moving.group} .controls`)).boundingBox(), null);
      });
    });

    test('prints on A4 and Letter without a blank sheet', async () => {
      await look(file, {}, async (page) => {
        for (const format of ['A4', 'Letter']) {
          const sheets = pdfPages(await page.pdf({ format, printBackground: false }));
          assert.ok(sheets.length >= 1);
          sheets.forEach((commands, i) =>
            assert.match(commands, /T[jJ]/, `sheet ${i + 1} of ${sheets.length} on ${format} is blank`));
        }
      });
    });

    test('can be read in grey', async () => {
      await look(file, { viewport: { width: 800, height: 1000 } }, async (page) => {
        const share = await greyLevels(browser, page);
        assert.equal(share.coloured, 0);
        assert.ok(share.light > 0.5 && share.dark > 0.005, JSON.stringify(share));
        assert.deepEqual(
          (await accessibilityFaults(page)).filter((fault) => fault.startsWith('color-contrast')), []);
      });
    });

    if (!moving) return;

    test('moves by slider, keys and buttons', async () => {
      await look(file, {}, async (page) => {
        const group = await page.$(moving.group);
        const place = () => group.$eval(`[${moving.attribute}].now`,
          (moment, attribute) => Number(moment.getAttribute(attribute)), moving.attribute);
        const spoken = () => group.$eval('input[type=range]', (input) => input.getAttribute('aria-valuetext'));
        await group.$eval('input[type=range]', (input) => {
          input.value = '0';
          input.dispatchEvent(new Event('input', { bubbles: true }));
        });
        const start = await place();
        const words = await spoken();
        await page.focus(`${moving.group} input[type=range]`);
        await page.keyboard.press('ArrowRight');
        assert.notEqual(await place(), start);
        assert.notEqual(await spoken(), words);
        await page.keyboard.press('ArrowLeft');
        assert.equal(await place(), start);
        // Backwards through the buttons: step on, step back, play.
        const focused = () => page.evaluate(() => document.activeElement.textContent);
        const back = async () => {
          await page.keyboard.down('Shift');
          await page.keyboard.press('Tab');
          await page.keyboard.up('Shift');
        };
        await back();
        assert.equal(await focused(), 'Step on');
        await page.keyboard.press('Space');
        assert.notEqual(await place(), start);
        await back();
        await page.keyboard.press('Space');
        assert.equal(await place(), start);
        await back();
        await page.keyboard.press('Space');
        assert.equal(await focused(), 'Pause');
        await page.waitForFunction((selector, attribute, first) => Number(document.querySelector(
          `${selector} [${attribute}].now`).getAttribute(attribute)) !== first, {}, moving.group,
        moving.attribute, start);
        await page.keyboard.press('Space');
        assert.equal(await focused(), 'Play');
        const stopped = await place();
        await new Promise((resolve) => { setTimeout(resolve, 500); });
        assert.equal(await place(), stopped);
      });
    });

    test('does not offer to play where motion is to be reduced', async () => {
      await look(file, { calm: true }, async (page) => {
        assert.equal(await (await page.$(`${moving.group} .play`)).boundingBox(), null);
        assert.ok(await (await page.$(`${moving.group} input[type=range]`)).boundingBox());
      });
    });
  });
}
