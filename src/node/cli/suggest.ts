import { entryTexts, labelsOf } from '../../core/edit/index.ts';
import { presenceHeard, type Suggestion, suggestCuts } from '../../core/media/index.ts';
import type { Recording } from '../../core/model/index.ts';
import { entriesOf } from '../../core/programme/index.ts';
import { editList, printClockTime, runtime, ticks, toSeconds, without } from '../../core/time/index.ts';
import { flowText } from '../../core/write/index.ts';
import { analyseRecording } from '../media/analyse.ts';
import { type Analysis, findAnalysis, rangesOf } from '../media/kept-analysis.ts';
import { inWords } from '../media/progress.ts';
import { command, EXIT } from './command.ts';
import { withFootage } from './footage-place.ts';
import { findRecording } from './render.ts';

export default command({
  name: 'suggest',
  summary: 'cuts worth making, each with its reason and the time it saves; changes nothing',
  args: ['<recording>'],
  options: [
    { name: 'json', help: 'one JSON document, times in seconds' },
    { name: 'edit', help: 'the edit list with all of them taken up, to be put into the recording' },
  ],

  async run([id = ''], flags, context) {
    const { load, say, out, content } = context;
    const { shop } = await load();
    const recording = findRecording(shop, id, context);
    if (typeof recording === 'number') return recording;
    const analysis =
      (await findAnalysis(content, recording)) ??
      (await withFootage(recording, shop, context, (place) => analyseRecording(content, recording, place)));
    const captions = recording.captions?.cues ?? [];
    if (captions.length === 0) say('note: without captions retakes cannot be found');
    if (analysis.speechBy === 'loudness')
      say('note: speech was told by loudness alone; liftside doctor says what a better ear needs');
    const found = suggestionsFor(recording, analysis, captions);
    if (flags.has('json')) out(JSON.stringify(suggestJson(recording.id, analysis, found), null, 2));
    else if (flags.has('edit')) out(editText(recording, found));
    else out(table(recording, found));
    return EXIT.fine;
  },
});

type Captions = readonly { readonly at: Suggestion['cut']; readonly text: string }[];

/** What is worth cutting, from what is known of a recording. */
export function suggestionsFor(recording: Recording, analysis: Analysis, captions: Captions): Suggestion[] {
  return suggestCuts({
    length: ticks(analysis.length),
    edit: recording.edit,
    silence: rangesOf(analysis.silence),
    freeze: rangesOf(analysis.freeze),
    black: rangesOf(analysis.black),
    claps: analysis.claps.map((at) => ticks<'recording'>(at)),
    starts: recording.files.map(({ span }) => span.start),
    captions,
    presence: presenceHeard(analysis.speechBy, {
      talk: rangesOf(analysis.speech),
      work: rangesOf(analysis.work),
      nobody: rangesOf(analysis.nobody),
    }),
  });
}

function suggestJson(recording: string, { speechBy }: Analysis, found: readonly Suggestion[]) {
  return {
    recording,
    speechBy,
    savesSeconds: toSeconds(found.reduce((sum, { wins }) => sum + wins, 0)),
    cuts: found.map(({ kind, cut, reason, wins }) => ({
      kind,
      start: toSeconds(cut.start),
      end: toSeconds(cut.end),
      reason,
      savesSeconds: toSeconds(wins),
    })),
  };
}

function table(recording: Recording, found: readonly Suggestion[]): string {
  if (found.length === 0) return `nothing to cut in ${recording.id} that could be found by listening and looking`;
  const wins = found.reduce((sum, one) => sum + one.wins, 0);
  const time = (moment: number) => printClockTime(Math.round(moment / 70_560_000) * 70_560_000).padStart(10);
  return [
    ...found.map(
      ({ cut, reason, wins: won }) =>
        `${time(cut.start)} ${time(cut.end)}  saves ${inWords(toSeconds(won)).padStart(6)}  ${reason}`,
    ),
    `together ${inWords(toSeconds(wins))} of ${printClockTime(runtime(recording.edit))}; nothing has been changed`,
  ].join('\n');
}

/** The edit list with all suggestions taken up: what they do not touch stays as written, camera and all. */
function editText(recording: Recording, found: readonly Suggestion[]): string {
  const cuts = editList(found.map(({ cut }) => cut));
  const entries = entryTexts(without(entriesOf(recording), cuts), recording, labelsOf(recording));
  return ['edit:', ...entries.map((entry) => `  - ${flowText(entry)}`)].join('\n');
}
