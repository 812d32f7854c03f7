import { webvttTime } from '../programme/index.ts';
import { captionWords, plural, withoutBlankLines } from '../read/index.ts';
import { TICKS_PER_SECOND } from '../time/index.ts';
import type { Exported, TimedCaption } from './format.ts';

const MS = TICKS_PER_SECOND / 1000;

/**
 * Captions as SubRip: counted from 1, times with a comma, `<b> <i> <u>` kept.
 * SubRip has no standard; this is what ffmpeg writes and reads (common practice).
 */
export function writeSrt(captions: readonly TimedCaption[]): Exported {
  const inOrder = captions.toSorted((a, b) => a.at.start - b.at.start);
  const cues = inOrder.map(({ at, markup }, i) => {
    const start = Math.round(at.start / MS);
    const end = Math.max(Math.round(at.end / MS), start + 1);
    return `${i + 1}\n${srtTime(start)} --> ${srtTime(end)}\n${srtText(markup)}\n`;
  });
  const placed = inOrder.filter(({ settings }) => settings !== '').length;
  const spoken = inOrder.filter(({ markup }) => /<v[ .>]/.test(markup)).length;
  const timed = inOrder.filter(({ markup }) => /<[\d:.]{9,20}>/.test(markup)).length;
  const notes = [
    ...(placed > 0 ? [`SRT has no positions: ${plural(placed, 'caption')} will stand at the bottom`] : []),
    ...(spoken > 0 ? [`SRT has no speakers: left out of ${plural(spoken, 'caption')}`] : []),
    ...(timed > 0 ? [`SRT has no word times: left out of ${plural(timed, 'caption')}`] : []),
  ];
  return { text: cues.join('\n'), notes };
}

function srtTime(ms: number): string {
  return webvttTime(ms * MS).replace('.', ',');
}

/** Plain words with the three tags that players of SubRip know; a word that looks like a time line cannot stay one. */
function srtText(markup: string): string {
  const text = withoutBlankLines(markup)
    .split(/(<\/?[biu](?:\.[^>]*)?>)/)
    .map((part, i) => (i % 2 === 1 ? part.replace(/\.[^>]*/, '') : captionWords(part)))
    .join('');
  return withoutBlankLines(text).replaceAll('-->', '→');
}
