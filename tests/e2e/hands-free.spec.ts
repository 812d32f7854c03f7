import { expect, test } from '@playwright/test';
import { toSeconds } from '../../src/core/time/index.ts';
import { demoTimes, openLesson, playing, see, seek } from '../support/lesson-page.ts';

test('at the bench, spoken words lead from step to step, and each step waits at its end', {
  tag: '@long',
}, async ({ page }) => {
  // The browsers of these tests understand no words on the device: this one stands for one that does.
  await page.addInitScript(() => {
    class Recogniser extends EventTarget {
      static available = async () => 'available';
      start() {
        Object.assign(window, {
          say: (transcript: string) =>
            this.dispatchEvent(
              Object.assign(new Event('result'), {
                resultIndex: 0,
                results: [Object.assign([{ transcript }], { isFinal: true })],
              }),
            ),
        });
      }
      abort() {}
    }
    Object.assign(window, { SpeechRecognition: Recogniser });
  });
  const say = (words: string) =>
    page.evaluate((said) => (window as unknown as { say(s: string): void }).say(said), words);
  await openLesson(page, 'lessons/chain/');
  const steps = (await demoTimes('chain')).chapters
    .flatMap((chapter) => chapter.steps)
    .filter(({ at }) => at.end > at.start);
  const [first, second, third] = steps;
  const shown = page.locator('.card:visible h2');
  await page.locator('[popovertarget=more-keys]').click();
  await page.locator('[data-action=listen]').click();
  await expect(page.locator('[data-action=listen]')).toHaveAttribute('aria-pressed', 'true');
  await expect(page.locator('.player-words')).toContainText('Say: next, back, again');

  await page.locator(`a[data-part="${second!.step.id}"]`).click();
  await playing(page, true);
  await seek(page, toSeconds(second!.at.end) - 1);
  await playing(page, false);
  await expect(shown).toContainText(second!.step.title);
  expect((await see(page)).time).toBeLessThan(toSeconds(second!.at.end));

  await say('play');
  await expect(shown).toContainText(third!.step.title);
  await playing(page, true);
  await say('stop');
  await playing(page, false);
  await say('back');
  await say('back');
  await expect(shown).toContainText(first!.step.title);
  await say('next we take out the axle');
  await expect(shown).toContainText(first!.step.title);
});
