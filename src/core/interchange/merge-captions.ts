import type { Caption, Recording } from '../model/index.ts';
import { retimeCaptions } from '../programme/index.ts';
import { plural } from '../read/index.ts';
import { type EditList, type Range, range, runtime, TICKS_PER_SECOND, toRecording } from '../time/index.ts';
import type { Imported } from './imported.ts';
import { writeVtt } from './vtt.ts';

/** Caption files keep whole milliseconds: times this near are the same. */
const MS = TICKS_PER_SECOND / 1000;

/** Captions merged into those of a recording. */
export interface MergedCaptions {
  /** WebVTT; left out where nothing changes. */
  readonly text?: string;
  readonly said: string;
}

/**
 * Captions that came in beside those that are there. Where ids of WebVTT agree, those captions are changed and the
 * others stay; otherwise what came in takes the place of all that it covers: everything, or, from a file on the clock
 * of the programme, what the programme shows. A caption that came in as it is there already stays as it is written.
 */
export function mergeCaptions({ captions: incoming = [], ...file }: Imported, recording: Recording): MergedCaptions {
  const present = recording.captions?.cues ?? [];
  // Counters of SRT are no ids: they only say how many came before.
  const counters = incoming.every(({ id }) => id === undefined || /^\d+$/.test(id));
  const named: readonly Caption[] = counters ? incoming.map(({ id: _, ...caption }) => caption) : incoming;
  const ids = new Set(named.flatMap(({ id }) => (id === undefined ? [] : [id])));
  const byId = present.some(({ id }) => id !== undefined && ids.has(id));
  const stays = present.filter((caption) => {
    if (byId) return caption.id === undefined || !ids.has(caption.id);
    return file.captionClock === 'programme' && retimeCaptions([caption], recording.edit).captions.length === 0;
  });
  const find = finder(present, file.captionClock === 'programme' ? recording.edit : undefined);
  const settled = named.map((caption) => find(caption) ?? caption);
  const all = [...new Set([...stays, ...settled])];
  const blocks = file.captionBlocks?.length ? file.captionBlocks : (recording.captions?.blocks ?? []);
  const there = new Set<object>(present);
  const same = all.filter((caption) => there.has(caption)).length;
  const fresh = all.length - same;
  const gone = present.length - same;
  const words = [
    ...(fresh > 0 ? [`${fresh} new or changed`] : []),
    ...(same > 0 ? [`${same} as before`] : []),
    ...(gone > 0 ? [`in place of ${gone}`] : []),
  ];
  const said = present.length === 0 ? plural(all.length, 'caption') : `captions: ${words.join(', ')}`;
  const asBefore = fresh === 0 && gone === 0 && blocks.join() === (recording.captions?.blocks ?? []).join();
  return asBefore ? { said } : { said, text: writeVtt(all, blocks) };
}

/** Finds a caption that says the same at the same time; one that came from a plainer format may say less about looks. */
function finder(
  present: readonly Caption[],
  edit: EditList | undefined,
): (caption: Omit<Caption, 'id'>) => Caption | undefined {
  interface Known {
    readonly caption: Caption;
    readonly at: Range<'recording'>;
  }
  const byStart = new Map<number, Known[]>();
  const key = (start: number) => Math.round(start / MS);
  for (const caption of present)
    for (const at of [caption.at, ...(edit ? seenOf(caption, edit) : [])])
      byStart.set(key(at.start), [...(byStart.get(key(at.start)) ?? []), { caption, at }]);
  return (caption) =>
    [0, -1, 1]
      .flatMap((off) => byStart.get(key(caption.at.start) + off) ?? [])
      .find(
        ({ caption: there, at }) =>
          Math.abs(at.start - caption.at.start) <= MS &&
          Math.abs(at.end - caption.at.end) <= MS &&
          there.text === caption.text &&
          ((there.markup === caption.markup && there.settings === caption.settings) ||
            (!caption.markup.includes('<') && caption.settings === '')),
      )?.caption;
}

/** What the programme shows of a caption that a cut goes through, on the recording's clock. */
function seenOf(caption: Caption, edit: EditList): Range<'recording'>[] {
  return retimeCaptions([caption], edit).captions.map(({ at }) =>
    range(toRecording(edit, at.start, 'after'), toRecording(edit, at.end, 'before')),
  );
}

/**
 * Whose clock a transcript is on that does not say: that of the programme where it ends with it, as captions of the
 * edited programme do. A recording that was not cut has one clock only.
 *
 * @param captions with their times as in the file
 */
export function clockOf(captions: readonly Pick<Caption, 'at'>[], { edit, edited }: Recording) {
  const length = runtime(edit);
  const end = captions.reduce((last, { at }) => Math.max(last, at.end), 0);
  return edited && end >= 0.9 * length && end <= length + TICKS_PER_SECOND ? 'programme' : 'recording';
}
