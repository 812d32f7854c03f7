import { execFile } from 'node:child_process';
import { readFile, writeFile } from 'node:fs/promises';
import { promisify } from 'node:util';
import { expect, type Page, test } from '@playwright/test';
import jsQR from 'jsqr';
import { PNG } from 'pngjs';
import { today } from '../../src/browser/page/today.ts';
import { BASE } from '../support/serve-demo.ts';

const run = promisify(execFile);
const folded = (text: string) => text.replace(/\s+/g, '');

/** The words of each sheet, white space folded; told by poppler, not by the browser that printed it. */
async function print(page: Page, file: string): Promise<string[]> {
  await writeFile(file, await page.pdf({ preferCSSPageSize: true, printBackground: true }));
  const { stdout } = await run('pdftotext', ['-raw', file, '-']);
  return stdout
    .split('\f')
    .map(folded)
    .filter((text) => text !== '');
}

/** What the code at the foot of a sheet says, read off the sheet as a printer would draw it. */
async function codeOn(file: string, sheet: number): Promise<string | undefined> {
  const to = `${file}-${sheet}`;
  await run('pdftoppm', ['-r', '200', '-png', '-f', `${sheet}`, '-l', `${sheet}`, '-singlefile', file, to]);
  const { data, width, height } = PNG.sync.read(await readFile(`${to}.png`));
  const top = Math.floor(height * 0.85);
  const foot = new Uint8ClampedArray(data.subarray(top * width * 4));
  return jsQR(foot, width, height - top)?.data;
}

test('a lesson is printed on few sheets, each with address, code, day and machine, no heading apart from its text @long', async ({
  page,
}, info) => {
  const poppler = await run('pdftotext', ['-v']).then(
    () => true,
    () => false,
  );
  test.skip(!poppler, 'pdftotext (poppler-utils) is not installed');
  await page.goto('lessons/chain/');
  await page.getByRole('button', { name: /^(Name yours|Change)$/ }).click();
  await page.getByRole('form', { name: 'My machine' }).getByLabel('Year').selectOption('2020');
  await page.getByRole('button', { name: 'Done' }).click();
  const file = info.outputPath('lesson.pdf');
  const sheets = await print(page, file);
  // Five, and one more where the machine has other fonts.
  expect(sheets.length).toBeLessThanOrEqual(6);
  for (const [i, text] of sheets.entries()) {
    expect(text).toContain(`https://millrace.example${BASE}lessons/chain/`);
    expect(text).toContain(folded(`Printed ${today()} for Tarn 420, 2020`));
    expect(text).toContain(`${i + 1}/${sheets.length}`);
    expect(await codeOn(file, i + 1)).toBe(`https://millrace.example${BASE}lessons/chain/`);
  }
  const parts = await page.locator('.step, .chapter').evaluateAll((all) =>
    all.map((part) => {
      const words = (selector: string) => part.querySelector<HTMLElement>(selector)?.innerText ?? '';
      return [words('.part-title'), words(':scope > p')] as const;
    }),
  );
  expect(parts.length).toBeGreaterThan(25);
  for (const [title, text] of parts) {
    const [head, begin] = [folded(title), folded(text.split('\n')[0] ?? '').slice(0, 12)];
    expect(
      sheets.some((sheet) => sheet.includes(head) && sheet.includes(begin)),
      `${title} | ${begin}`,
    ).toBe(true);
  }

  // One step alone, with the words of caution.
  await page.evaluate(() => {
    window.print = () => {};
  });
  const step = page.getByRole('region', { name: 'Tighten the axle nut' });
  await step.getByRole('button', { name: 'Print' }).click();
  const [one, ...more] = await print(page, info.outputPath('step.pdf'));
  expect(more).toEqual([]);
  expect(one).toContain('90±5N·m');
  expect(one).toContain('Theonewhotighteneditsignsforit');
  expect(one).toContain('servicemanualfortheexactmodelandyeardecides');
  expect(one).not.toContain('Findthetightspot');
});
