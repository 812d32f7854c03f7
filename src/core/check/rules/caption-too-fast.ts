import { lengthOf, toSeconds } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { cues, first, quoteWords, recordingsWithCaptions } from './captions.ts';

/**
 * Words a minute. Ofcom's advice as reported by BBC R&D (2015) is 160 to 180, with speech above 200 hard to follow;
 * the DCMP Captioning Key has 150 to 160 for adult special interest.
 */
const MOST = 180;
/** Told in other words, but no error: an error keeps the lesson from being built, and fast captions beat none. */
const HARD = 200;
/** Fewer words are read at a glance; how long they stand is what `caption-too-short` looks at. */
const LEAST_WORDS = 4;

export default rule({
  id: 'caption-too-fast',
  severity: 'warning',
  why: 'Anybody who reads along is left behind, and misses what the hands do meanwhile.',
  bad: cues('00:12.000 --> 00:14.000\nHold the axle head still and crack\nthe nut while it stands.'),
  says: '3:1 "Hold the axle head still and crack the…" asks for 360 words a minute',
  good: cues('00:12.000 --> 00:16.000\nHold the axle head still and crack\nthe nut while it stands.'),

  *recording(shop) {
    for (const { programme } of recordingsWithCaptions(shop))
      yield* first(
        programme.captions.flatMap(({ at, text, from }) => {
          const words = text.split(/\s+/).filter(Boolean).length;
          const perMinute = Math.round((words * 60) / toSeconds(lengthOf(at)));
          if (words < LEAST_WORDS || perMinute <= MOST) return [];
          return [
            {
              place: from.place,
              message: `${quoteWords(text)} asks for ${perMinute} words a minute${perMinute > HARD ? ', which is hard to follow' : ''}`,
              help: `keep it on screen for ${((words * 60) / MOST).toFixed(1)} s, or use fewer words: up to ${MOST} a minute can be read`,
            },
          ];
        }),
        `captions ask for more than ${MOST} words a minute`,
      );
  },
});
