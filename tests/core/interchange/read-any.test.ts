import { expect, test } from 'vitest';
import { findImportFormat } from '../../../src/core/interchange/index.ts';

// One small text of each format as its own standard writes it, and what looks like two of them.
const cue = (time: string, words = 'Words.') => `${time} --> 09:59:59.999\n${words}\n\n`;
const dense = `WEBVTT\n\n${cue('00:00:01.000')}${cue('00:00:04.000')}`;
const minutes = (gap: number) =>
  `WEBVTT\n\n${cue('00:00:00.000')}${cue(`00:0${Math.floor(gap / 60)}:0${gap % 60}.000`)}`;

test.each([
  ['a.txt', '[cut] 0:10 Words\n', 'paper-edit'],
  ['a.txt', 'Hold the [-long-] axle\n', 'paper-edit'],
  ['a.txt', '0:10 step: Crack the nut\n', 'paper-edit'],
  ['a.txt', 'Step: Crack the nut\n', 'paper-edit'],
  ['a.vtt', `WEBVTT\n\n00:01.000 --> 00:02.000\nstep: one [-two-]\n`, 'captions'],
  ['a.OTIO', '{}', 'otio'],
  ['a.json', '{"OTIO_SCHEMA": "Timeline.1"}', 'otio'],
  ['a.json', '{"words": []}', 'words'],
  ['a', '  [{"words": 1}]', 'words'],
  ['a.EDL', '', 'edl'],
  ['a.txt', '\nTITLE: x\n', 'edl'],
  ['a.txt', 'FCM: DROP FRAME\n', 'edl'],
  ['a.xml', '<?xml version="1.0"?>\n<Chapters>\n', 'mkv-chapters'],
  ['a.txt', ';FFMETADATA1\n', 'ffmetadata'],
  ['a.txt', '\uFEFF;FFMETADATA1\n', 'ffmetadata'],
  ['a.vtt', dense, 'captions'],
  ['a.vtt', `\uFEFF${dense}`, 'captions'],
  ['chapters.vtt', dense, 'vtt-chapters'],
  ['my-Metadata.vtt', dense, 'vtt-chapters'],
  ['chapters/a.vtt', dense, 'captions'],
  ['a.vtt', dense.replace('WEBVTT', 'WEBVTT - Chapters'), 'vtt-chapters'],
  ['chapters.vtt', dense.replace('WEBVTT', 'WEBVTT Captions'), 'captions'],
  ['a.vtt', minutes(61), 'vtt-chapters'],
  ['a.vtt', minutes(60), 'captions'],
  ['a.vtt', `WEBVTT\n\n${cue('01:00:00.000')}`, 'captions'],
  ['a.vtt', `WEBVTT\n\n${cue('00:59:00.000')}${cue('01:00:00.000')}`, 'captions'],
  ['a.vtt', `WEBVTT\n\n${cue('00:58:58.000')}${cue('01:00:00.000')}`, 'vtt-chapters'],
  ['a.SRT', '', 'captions'],
  ['a.txt', '1\n00:00:01,000 --> 00:00:02,000\nWords\n', 'captions'],
  ['a.txt', '1\n0:00:01.5 --> 0:00:02.5\nWords\n', 'captions'],
  ['a.txt', '0:00 Welcome\n', 'chapter-list'],
  ['a.txt', 'Chapters:\n(1:02:03) Axle\n', 'chapter-list'],
])('%s with %j is read as %s', (file, text, id) => {
  const read = findImportFormat(file, text);
  expect(read.ok && read.value.id).toBe(id);
});

test('what fits nothing is told with the choices', () => {
  expect(findImportFormat('media/a.txt', 'Nothing of all that.')).toMatchObject({
    ok: false,
    problem: 'what media/a.txt is cannot be told from its text',
    help: expect.stringMatching(/^say so with --as paper-edit, otio, edl, .*chapter-list$/),
  });
});
