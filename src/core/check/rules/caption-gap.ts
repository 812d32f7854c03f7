import type { HeardSpeech } from '../../media/index.ts';
import { placeOf } from '../../model/index.ts';
import {
  common,
  editList,
  invert,
  printClockTime,
  type Range,
  range,
  runtime,
  TICKS_PER_SECOND,
  ticks,
  within,
} from '../../time/index.ts';
import { rule } from '../rule.ts';
import { type Captioned, cues, first, recordingsWithCaptions } from './captions.ts';

/** A longer silence is rare in a shop where somebody explains. (Common practice, no source.) */
const MOST = 60 * TICKS_PER_SECOND;
/**
 * Of what was heard. Sound cannot say whether somebody speaks or a ratchet does, and work on one fastener takes half
 * a minute at most before a word is said. (Common practice, no source.)
 */
const MOST_HEARD = 30 * TICKS_PER_SECOND;
/** Of speech that was told from other sound: what fills a caption of its own. (Common practice, no source.) */
const MOST_SPOKEN = 2 * TICKS_PER_SECOND;
/** A caption may come this much before the words and stay as long after: BBC guidelines, as quoted in a W3C note. */
const AROUND = 1.5 * TICKS_PER_SECOND;

export default rule({
  id: 'caption-gap',
  severity: 'info',
  why: 'Somebody who cannot hear cannot tell a pause from a missing caption.',
  bad: cues('00:12.000 --> 04:30.000\nHold.\n\n06:00.000 --> 06:10.000\nPull.\n\n08:00.000 --> 09:00.000\nPush.', ''),
  says: '6:1 after 0:06:10 no caption comes for 0:01:50',
  good: cues('00:12.000 --> 04:30.000\nHold.\n\n06:00.000 --> 09:00.000\nPull.', ''),

  *recording(shop, heard) {
    for (const one of recordingsWithCaptions(shop)) {
      const { recording, cues } = one;
      const { edit } = recording;
      const { most, around, of, help, all } = heard ? BY[heard.by] : UNHEARD;
      const kept = heard ? common(edit, heard.stretches) : edit;
      const found = gaps(one, around).flatMap((gap) => {
        const missed = runtime(within(kept, gap));
        return missed > most ? [{ gap, missed }] : [];
      });
      yield* first(
        found.map(({ gap, missed }) => {
          const ahead = cues.findLast(({ at }) => at.end <= gap.start);
          const from = printClockTime(ahead?.at.end ?? gap.start);
          return {
            place: ahead?.place ?? placeOf(recording, 'captions'),
            message: `after ${from} no caption comes for ${printClockTime(missed)}${of}`,
            help,
          };
        }),
        all,
      );
    }
  },
});

interface Weighed {
  /** Ticks that may pass without a caption. */
  readonly most: number;
  /** Ticks that a caption stands for before its start and after its end. */
  readonly around: number;
  readonly of: string;
  readonly help: string;
  readonly all: string;
}

const UNHEARD: Weighed = {
  most: MOST,
  around: 0,
  of: '',
  help: 'write what is heard there, or say [no speech]',
  all: 'stretches over a minute have no caption',
};
const BY: Readonly<Record<HeardSpeech['by'], Weighed>> = {
  loudness: {
    most: MOST_HEARD,
    around: AROUND,
    of: ' of speech or work',
    help: 'write what is said there, or name what is heard, such as [ratchet]',
    all: 'stretches where something is heard have no caption',
  },
  network: {
    most: MOST_SPOKEN,
    around: AROUND,
    of: ' of speech',
    help: 'write what is said there',
    all: 'stretches where somebody speaks have no caption',
  },
};

/** What lies between captions, each taken so much longer at both ends. */
function gaps({ recording, cues }: Captioned, around: number): readonly Range<'recording'>[] {
  const said = editList(
    cues.map(({ at }) => range<'recording'>(ticks(Math.max(0, at.start - around)), ticks(at.end + around))),
  );
  return invert(said, recording.length ?? said.at(-1)?.end ?? ticks(0));
}
