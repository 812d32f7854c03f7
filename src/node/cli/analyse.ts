import { relative } from 'node:path';
import { printClockTime, toSeconds } from '../../core/time/index.ts';
import { analyseRecording } from '../media/analyse.ts';
import { type Analysis, analysisFolder } from '../media/kept-analysis.ts';
import { inWords } from '../media/progress.ts';
import { command, EXIT } from './command.ts';
import { withFootage } from './footage-place.ts';
import { findRecording } from './render.ts';

export default command({
  name: 'analyse',
  summary:
    'finds talk, quiet, scene changes and key frames in a recording, draws its sound, and lines up its further cameras',
  args: ['<recording>'],
  options: [{ name: 'json', help: 'one JSON document, times in ticks of 1/705 600 000 s' }],

  async run([id = ''], flags, context) {
    const { load, say, out, content, cwd } = context;
    const { shop } = await load();
    const recording = findRecording(shop, id, context);
    if (typeof recording === 'number') return recording;
    return withFootage(recording, shop, context, async (place) => {
      const analysis = await analyseRecording(content, recording, place);
      if (flags.has('json')) out(JSON.stringify(analysis, null, 2));
      else out(report(analysis));
      say(`kept in ${relative(cwd, analysisFolder(content, recording.id))}`);
      return EXIT.fine;
    });
  },
});

function report(found: Analysis): string {
  const { loudness, speechBy, speech, work, nobody, silence, scenes, black, freeze, keyFrames, claps, angles } = found;
  const sum = (spans: readonly (readonly [number, number])[]) =>
    inWords(spans.reduce((all, [start, end]) => all + toSeconds(end - start), 0));
  const level = (value: number | undefined, unit: string) =>
    value === undefined ? '–' : `${value.toFixed(1)} ${unit}`;
  return [
    `length        ${printClockTime(found.length)}`,
    `loudness      ${level(loudness.integrated, 'LUFS')}, range ${level(loudness.range, 'LU')}, true peak ${level(loudness.truePeak, 'dBTP')}`,
    `of speech     ${level(loudness.speech, 'LUFS')}`,
    speechBy === 'network'
      ? `speech        ${sum(speech)} in ${speech.length} stretches, told from other sound by a network`
      : `speech        ${sum(speech)} in ${speech.length} stretches, by loudness alone: tools count as speech`,
    `work          ${sum(work)} without a word, but something is heard or moves`,
    `nobody        ${sum(nobody)} without a word, and nothing is heard or moves`,
    `quiet         ${sum(silence)} in ${silence.length} stretches`,
    `black         ${black.length === 0 ? 'none' : `${sum(black)} in ${black.length} stretches`}`,
    `standing still ${freeze.length === 0 ? 'never' : `${sum(freeze)} in ${freeze.length} stretches`}`,
    `scene changes ${scenes.length}`,
    `key frames    ${keyFrames.length}`,
    `claps         ${claps.length === 0 ? 'none' : claps.map((at) => printClockTime(at)).join(', ')}`,
    ...angles.map((angle) =>
      angle.offset === undefined
        ? `${angle.id}: not aligned: ${angle.refused ?? ''}`
        : `${angle.id}: begins at ${angle.offset.toFixed(3)} s, clock off by ${(angle.drift ?? 0).toFixed(1)} ppm, ${Math.round((angle.confidence ?? 0) * 100)} % of its sound agrees`,
    ),
  ].join('\n');
}
