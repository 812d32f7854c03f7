import { expect, type Page, test } from '@playwright/test';
import { frameAt } from '../../src/core/time/index.ts';
import { demoTimes, pictureIsThere, see } from '../support/lesson-page.ts';
import { type Action, type Aim, TASKS, type Task } from './newcomer/tasks.ts';

/** An attendee with dirty hands gets there in so many actions. */
const MOST = 3;

async function act(page: Page, action: Action): Promise<void> {
  if ('find' in action) {
    const field = page.getByRole('searchbox').first();
    await field.fill(action.find);
    await field.press('Enter');
    // Nobody chooses before there is an answer.
    await expect(page.locator('.found')).not.toBeEmpty();
  } else if ('choose' in action) await page.getByRole('link', { name: action.choose, exact: true }).first().click();
  else if ('press' in action) await page.getByRole('button', { name: action.press }).or(startKey(page)).first().click();
  else if ('unfold' in action) await page.locator('summary', { hasText: action.unfold }).click();
  else if ('fill' in action) await page.getByRole('spinbutton', { name: action.fill }).first().fill(action.with);
  else await pick(page, action);
}

/** The key on the picture is a link, so that it leads somewhere before scripts have come. */
function startKey(page: Page) {
  return page.locator('.start').and(page.getByRole('link', { name: /^Play/ }));
}

/** Choosing closes what had to be opened for it, as the press of Done or Escape that nobody would count. */
async function pick(page: Page, { pick: label, of }: Extract<Action, { pick: string }>): Promise<void> {
  const list = page.getByRole('combobox', { name: label }).first();
  const option = list.locator('option').filter({ hasText: of }).first();
  await list.selectOption(await option.getAttribute('value').then((value) => value ?? ''));
  const done = page.getByRole('button', { name: 'Done' });
  if (await done.isVisible()) await done.click();
}

async function reached(page: Page, aim: Aim): Promise<void> {
  if ('words' in aim) {
    await expect(page.locator(aim.in).locator('visible=true').first()).toContainText(aim.words, {
      // What is hidden from this reader does not count.
      useInnerText: true,
    });
    return;
  }
  const { chapters, recording } = await demoTimes(aim.lesson);
  const { step, recording: span } = chapters
    .flatMap(({ steps }) => steps)
    .find((each) => each.step.id === aim.frameOf)!;
  await pictureIsThere(page);
  // The number of the frame is read off the picture. A chapter begins with words of its own before its first step.
  const from = chapters.find(({ steps }) => steps[0]?.step.id === step.id)?.recording.start ?? span.start;
  const [first, end] = [frameAt(from, recording.rate!), frameAt(span.end, recording.rate!)];
  await expect
    .poll(async () => {
      const { frame = Number.NaN } = await see(page);
      return frame >= first - 1 && frame < end;
    })
    .toBe(true);
}

/** Actions of a task, and the seconds it took from the front page to what was wanted. */
async function work(page: Page, { wants, actions, aim }: Task): Promise<string> {
  await page.goto('about:blank');
  await page.goto('');
  await page.evaluate(() => localStorage.clear());
  const started = Date.now();
  for (const action of actions) await act(page, action);
  await reached(page, aim);
  const seconds = (Date.now() - started) / 1000;
  return `${actions.length} ${actions.length === 1 ? 'action ' : 'actions'} ${seconds.toFixed(1).padStart(6)} s  ${wants}`;
}

const SCREENS = {
  'a desktop': { viewport: { width: 1280, height: 800 } },
  'a phone': { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
} as const;

test('there are twenty tasks or more, none of more than three actions', () => {
  expect(TASKS.length).toBeGreaterThanOrEqual(20);
  expect(new Set(TASKS.map(({ wants }) => wants)).size).toBe(TASKS.length);
  for (const { actions } of TASKS) expect(actions.length).toBeLessThanOrEqual(MOST);
});

for (const [name, screen] of Object.entries(SCREENS))
  test.describe(`on ${name}`, () => {
    test.use(screen);

    if (name === 'a phone')
      test('a newcomer finds a step, a value, and the value of their own machine', async ({ page }) => {
        for (const task of TASKS.filter(({ wants }) => /is tightened|slack the chain|bike of 2020/.test(wants)))
          await work(page, task);
      });

    test('a newcomer reaches what they want in three actions at most, each of twenty tasks', { tag: '@long' }, async ({
      page,
    }) => {
      const told: string[] = [];
      for (const task of TASKS) told.push(await work(page, task));
      console.log([`On ${name}, ${test.info().config.projects[0]?.use.baseURL}:`, ...told].join('\n  '));
    });
  });
