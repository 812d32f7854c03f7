import { computed, effect } from '@preact/signals';
import { buildPeaks, captionsOf, inOrder, proposeSteps } from '../../core/edit/index.ts';
import { presenceHeard, type SpeechBy, suggestCuts } from '../../core/media/index.ts';
import type { Recording } from '../../core/model/index.ts';
import { fromSeconds, type Range, type Ticks, ticks } from '../../core/time/index.ts';
import { spokenWords } from '../../core/words/index.ts';
import { Refused } from './api.ts';
import type { Footage } from './footage.ts';
import type { Store } from './store.ts';
import type { Thumbs } from './strip/scene.ts';

/** What `analyse` keeps of a recording, as far as the page uses it; times in ticks. */
interface Analysis {
  readonly length: number;
  readonly speechBy: SpeechBy;
  readonly speech: readonly TickPair[];
  readonly work: readonly TickPair[];
  readonly nobody: readonly TickPair[];
  readonly silence: readonly TickPair[];
  readonly scenes: readonly { readonly at: number }[];
  readonly black: readonly TickPair[];
  readonly freeze: readonly TickPair[];
  readonly keyFrames: readonly number[];
  readonly claps: readonly number[];
  readonly thumbnails: {
    readonly every: number;
    readonly columns: number;
    readonly rows: number;
    readonly sheets: readonly { readonly name: string; readonly at: number }[];
  };
  readonly angles: readonly { readonly file: string; readonly candidate?: number }[];
  readonly peaks: { readonly perSecond: number; readonly bytes: readonly number[] };
}
type TickPair = readonly [start: number, end: number];

/** Brings in captions and whatever an analysis has found; the page is in use meanwhile. */
export async function loadFootage(store: Store, footage: Footage, recording: string): Promise<void> {
  footage.missing.value = false;
  try {
    const analysis = await store.api.get<Analysis>(`analysis/?recording=${recording}`);
    footage.words.value = '';
    const read = store.view.peek().recording;
    if (read) takeIn(store, footage, read, analysis);
    const finest = analysis.peaks.bytes[0] ?? 0;
    const bytes = new Int8Array(await store.api.bytes(`analysis-file/${recording}/peaks.s8`));
    footage.peaks.value = buildPeaks(bytes.subarray(0, finest), analysis.peaks.perSecond);
    footage.thumbs.value = await loadThumbs(store, recording, analysis);
  } catch (error) {
    footage.missing.value = error instanceof Refused && error.status === 404;
    footage.words.value = footage.missing.peek()
      ? 'No waveform, small pictures or suggested cuts yet: the footage is not analysed.'
      : `The waveform could not be loaded: ${error instanceof Refused ? error.message : 'Liftside does not answer'}.`;
  }
}

/** Keeps what is made of the captions as their file says it: those shown, the jumps between them, proposed steps. */
export function followCaptions(store: Store, footage: Footage, signal: AbortSignal): void {
  const captions = computed(() => captionsOf(store.session.value));
  const end = effect(() => {
    footage.spoken.value = spokenWords(captions.value);
    const next = captions.value.map(({ at, text }) => ({ range: at, text }));
    const known = footage.captions.peek();
    // Reading them over changes their marks alone.
    const same =
      known.length === next.length &&
      next.every(({ range, text }, i) => {
        const before = known[i];
        return before?.text === text && before.range.start === range.start && before.range.end === range.end;
      });
    if (same) return;
    footage.captions.value = next;
    const { found } = store.session.peek();
    const caption = inOrder(next.map(({ range }) => range.start));
    const word = inOrder(footage.spoken.peek().map(({ at }) => at.start));
    store.patch({ found: { ...found, caption, word } });
    propose(store, footage);
  });
  signal.addEventListener('abort', end);
}

function takeIn(store: Store, footage: Footage, recording: Recording, analysis: Analysis): void {
  const silence = rangesOf(analysis.silence);
  footage.silences.value = silence;
  footage.speechBy.value = analysis.speechBy;
  footage.speech.value = rangesOf(analysis.speech);
  footage.offers.value = analysis.angles.flatMap(({ file, candidate }, index) =>
    candidate === undefined ? [] : [{ index, file, at: fromSeconds<'recording'>(candidate) }],
  );
  const { found } = store.session.peek();
  const suggestions = suggestCuts({
    length: ticks(analysis.length),
    edit: recording.edit,
    silence,
    freeze: rangesOf(analysis.freeze),
    black: rangesOf(analysis.black),
    claps: analysis.claps.map(moment),
    starts: recording.files.map(({ span }) => span.start),
    captions: captionsOf(store.session.peek()).map(({ at, text }) => ({ at, text })),
    presence: presenceHeard(analysis.speechBy, {
      talk: rangesOf(analysis.speech),
      work: rangesOf(analysis.work),
      nobody: rangesOf(analysis.nobody),
    }),
  });
  store.patch({
    found: {
      ...found,
      silence: inOrder(silence.flatMap(({ start, end }) => [start, end])),
      scene: inOrder(analysis.scenes.map(({ at }) => moment(at))),
      keyframe: inOrder(analysis.keyFrames.map(moment)),
    },
  });
  footage.cuts.value = suggestions.map(({ kind, cut, reason }) => ({ id: `${kind} ${cut.start}`, range: cut, reason }));
  propose(store, footage);
}

/** Cuts and steps in one row, in the order of the recording. */
function propose(store: Store, footage: Footage): void {
  const steps = proposeSteps(footage.captions.peek()).map((step) => ({ ...step, id: `step ${step.range.start}` }));
  const all = [...footage.cuts.peek(), ...steps];
  store.patch({ suggestions: all.toSorted((a, b) => a.range.start - b.range.start) });
}

const moment = (at: number): Ticks<'recording'> => ticks(at);
const rangesOf = (spans: readonly TickPair[]): Range<'recording'>[] =>
  spans.map(([start, end]) => ({ start: moment(start), end: moment(end) }));

/** The sheets of small pictures, and where in them each picture stands. */
async function loadThumbs(store: Store, recording: string, analysis: Analysis): Promise<Thumbs | undefined> {
  const { sheets, columns, rows, every } = analysis.thumbnails;
  const images = await Promise.all(
    sheets.map(async ({ name }) =>
      createImageBitmap(new Blob([await store.api.bytes(`analysis-file/${recording}/${name}`)])),
    ),
  );
  const shots = images.flatMap((sheet, index) => {
    const [w, h] = [sheet.width / columns, sheet.height / rows];
    const from = sheets[index]?.at ?? 0;
    return Array.from({ length: columns * rows }, (_, n) => ({
      at: moment(from + n * every * fromSeconds(1)),
      cell: { sheet, x: (n % columns) * w, y: Math.floor(n / columns) * h, w, h },
    })).filter(({ at }) => at < (sheets[index + 1]?.at ?? analysis.length));
  });
  return shots.length === 0 ? undefined : { times: shots.map(({ at }) => at), cells: shots.map(({ cell }) => cell) };
}
