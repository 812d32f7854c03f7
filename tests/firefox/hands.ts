import type { ElementHandle, Page } from 'puppeteer-core';
import type { Action } from '../e2e/newcomer/tasks.ts';

/** Only what hangs is ended: a machine whose cores are busy takes many times as long. */
export const WAIT = { timeout: 120_000 };

/** What somebody does with one hand, by the words that stand on the page. */
export async function act(page: Page, action: Action): Promise<void> {
  if ('find' in action) {
    const field = await page.waitForSelector('input[type=search]', WAIT);
    await field?.click({ count: 3 });
    await field?.type(action.find);
    await field?.press('Enter');
    await page.waitForFunction(() => (document.querySelector('.found')?.textContent ?? '') !== '', WAIT);
  } else if ('choose' in action) await press(page, 'a', action.choose, true);
  else if ('press' in action) await press(page, 'button, a.start', action.press, false);
  else if ('unfold' in action) await press(page, 'summary', action.unfold, false);
  else if ('fill' in action) {
    const field = await named(page, 'input[type=number], input[inputmode]', action.fill, false);
    await field.click({ count: 3 });
    await field.type(action.with);
  } else {
    const list = await named(page, 'select', action.pick, false);
    const value = await list.evaluate(
      (select, words, flags) => {
        const wanted = new RegExp(words, flags);
        return [...(select as HTMLSelectElement).options].find(({ text }) => wanted.test(text))?.value ?? '';
      },
      typeof action.of === 'string' ? action.of : action.of.source,
      typeof action.of === 'string' ? '' : action.of.flags,
    );
    await list.select(value);
    const done = await named(page, 'button', 'Done', true, false).catch(() => undefined);
    await done?.click();
  }
}

/** Presses what bears a name, and waits for the page that it may lead to. */
async function press(page: Page, selector: string, name: string | RegExp, exact: boolean): Promise<void> {
  const before = page.url();
  const element = await named(page, selector, name, exact);
  const href = await element.evaluate((each) => (each as HTMLAnchorElement).href ?? '');
  await element.evaluate((each) => each.scrollIntoView({ block: 'center' }));
  await element.click();
  // What a step's link asks for is taken out of the address once the film is there.
  const [to = ''] = href.split(/[?#]/);
  if (to !== '' && to !== before.split(/[?#]/)[0]) {
    await page.waitForFunction((address) => location.href.startsWith(address), WAIT, to);
    await page.waitForFunction(() => document.readyState === 'complete', WAIT);
  }
}

/** The first visible element of a kind whose label, name or text is this one. */
async function named(
  page: Page,
  selector: string,
  name: string | RegExp,
  exact: boolean,
  wait = true,
): Promise<ElementHandle<Element>> {
  const [words, flags] =
    typeof name === 'string' ? [name.replaceAll(/[.*+?^${}()|[\]\\/]/g, '\\$&'), ''] : [name.source, name.flags];
  const found = (css: string, pattern: string, how: string) => {
    const wanted = new RegExp(pattern, how);
    const nameOf = (each: Element) =>
      each.getAttribute('aria-label') ??
      ((each as HTMLInputElement).labels?.[0]?.innerText || (each as HTMLElement).innerText);
    return [...document.querySelectorAll(css)].find(
      (each) => each.checkVisibility() && wanted.test(nameOf(each).replaceAll(/\s+/g, ' ').trim()),
    );
  };
  const pattern = exact ? `^${words}$` : words;
  if (wait)
    await page.waitForFunction(`!!(${found})(${[selector, pattern, flags].map((each) => JSON.stringify(each))})`, WAIT);
  const handle = (await page.evaluateHandle(found, selector, pattern, flags)).asElement();
  if (!handle) throw new Error(`${page.url()} has no ${selector} that is named ${name}`);
  return handle as ElementHandle<Element>;
}
