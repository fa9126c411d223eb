// The browser that opens the pages, and what is asked of every page in it.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import { inflateSync } from 'node:zlib';
import puppeteer from 'puppeteer-core';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export const phone = { width: 390, height: 844 };
export const desk = { width: 1280, height: 900 };

export function startBrowser(executablePath) {
  return puppeteer.launch({
    executablePath,
    headless: true,
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
      '--disable-background-networking', '--disable-component-update', '--disable-sync'],
  });
}

/** Opens a page from its file. Whatever it asks for beyond that file is refused and noted. */
export async function openPage(browser, file, { viewport = desk, scripts = true, calm = false } = {}) {
  const page = await browser.newPage();
  const troubles = [];
  const address = pathToFileURL(file).href;
  await page.setViewport(viewport);
  await page.setJavaScriptEnabled(scripts);
  if (calm) {
    await page.emulateMediaFeatures([{ name: 'prefers-reduced-motion', value: 'reduce' }]);
  }
  await page.setRequestInterception(true);
  page.on('request', (request) => {
    if (request.url().split('#')[0] === address || request.url().startsWith('data:')) {
      request.continue();
    } else {
      troubles.push(`asked for ${request.url()}`);
      request.abort();
    }
  });
  page.on('console', (message) => {
    if (['error', 'warn', 'warning'].includes(message.type())) troubles.push(message.text());
  });
  page.on('pageerror', (error) => troubles.push(String(error)));
  await page.goto(address, { waitUntil: 'load' });
  return { page, troubles };
}

/** What axe-core objects to, one line each. */
export async function accessibilityFaults(page) {
  await page.evaluate(axeSource);
  const found = await page.evaluate(async () => {
    const { violations } = await globalThis.axe.run(document, { resultTypes: ['violations'] });
    return violations;
  });
  return found.flatMap((rule) => rule.nodes.slice(0, 3).map(
    (node) => `${rule.id}: ${node.target.join(' ')}: ${node.failureSummary}`,
  ));
}

/** Each page of a PDF as its drawing commands. Chromium keeps pages outside object streams. */
export function pdfPages(pdf) {
  const text = Buffer.from(pdf).toString('latin1');
  const stream = (number) => {
    const start = text.search(new RegExp(`(^|\\n)${number} 0 obj`));
    const head = text.indexOf('stream', start);
    const from = head + 'stream'.length + (text[head + 6] === '\r' ? 2 : 1);
    const length = Number(/\/Length\s+(\d+)/.exec(text.slice(start, head))[1]);
    const bytes = Buffer.from(text.slice(from, from + length), 'latin1');
    // Short streams are not packed.
    return (/FlateDecode/.test(text.slice(start, head)) ? inflateSync(bytes) : bytes).toString('latin1');
  };
  return [...text.matchAll(/\/Type\s*\/Page\b(?!s)[\s\S]*?endobj/g)].map((found) => {
    const contents = /\/Contents\s+(\d+) 0 R/.exec(found[0]);
    return contents ? stream(contents[1]) : '';
  });
}

/** Grey levels of a picture of the page as it prints. */
export async function greyLevels(browser, page) {
  await page.emulateMediaType('print');
  await page.emulateVisionDeficiency('achromatopsia');
  const picture = await page.screenshot({ encoding: 'base64', clip: { x: 0, y: 0, width: 800, height: 3000 }, captureBeyondViewport: true });
  const reader = await browser.newPage();
  const levels = await reader.evaluate(async (data) => {
    const image = new Image();
    image.src = `data:image/png;base64,${data}`;
    await image.decode();
    const canvas = Object.assign(document.createElement('canvas'),
      { width: image.width, height: image.height });
    const context = canvas.getContext('2d');
    context.drawImage(image, 0, 0);
    const pixels = context.getImageData(0, 0, image.width, image.height).data;
    const share = { dark: 0, light: 0, coloured: 0 };
    for (let i = 0; i < pixels.length; i += 4) {
      const [r, g, b] = pixels.slice(i, i + 3);
      if (Math.max(r, g, b) - Math.min(r, g, b) > 12) share.coloured += 1;
      if (r < 90) share.dark += 1;
      if (r > 235) share.light += 1;
    }
    const all = pixels.length / 4;
    return { dark: share.dark / all, light: share.light / all, coloured: share.coloured / all };
  }, picture);
  await reader.close();
  return levels;
}
