import { describe, expect, test } from 'vitest';
import { readEdl } from '../../../src/core/interchange/read-edl.ts';
import { toSeconds } from '../../../src/core/time/index.ts';
import { spans } from '../../support/edit.ts';
import { changedFile, done, smallShop } from '../../support/shop.ts';

// Plain edit lists after the conventions of SMPTE 258M; one camera file of ten minutes at 25 frames a second.
const RATE_25 = changedFile('recordings/chain.yaml', 'rate: "29.97"', 'rate: "25"');
const { recording } = smallShop(RATE_25);
const two = smallShop({
  'recordings/chain.yaml': (RATE_25['recordings/chain.yaml'] ?? '').replace(
    '  - file: media/chain.mp4\n',
    '  - file: media/chain.mp4\n  - file: media/side.mp4\n',
  ),
}).recording;
const read = (lines: readonly string[], of = recording) => {
  const { edit = [], marks = [], notes } = done(readEdl(`TITLE: x\n${lines.join('\n')}\n`, of));
  return {
    edit: spans(edit),
    marks: marks.map(({ kind, title, at }) => [kind, title, toSeconds(at)]),
    notes,
  };
};
const TEN = '001 CHAIN V C 00:00:10:00 00:00:20:00 01:00:00:00 01:00:10:00';

describe('a locator', () => {
  const marks = (...lines: string[]) => read([TEN, ...lines]);
  test('goes to the moment shown there: a step where it is cyan, else a chapter', () => {
    expect(
      marks('* LOC: 01:00:00:00 GREEN   Begin', '*LOC: 01:00:02:12 cyan Turn', '* LOC: 01:00:09:24 RED').marks,
    ).toEqual([
      ['chapter', 'Begin', 10],
      ['step', 'Turn', 12.48],
      ['chapter', 'Untitled', 19.96],
    ]);
  });

  test.each(['01:00:10:00', '00:59:59:24'])('at %s lies in no event', (time) => {
    expect(marks(`* LOC: ${time} GREEN Out`)).toMatchObject({
      ...{ marks: [], notes: ['the locator "Out" lies in no event, so it was left out'] },
    });
  });

  test('with a time that is none is told by its line', () => {
    expect(marks('* LOC: 01:00:61:00 GREEN Wrong').notes).toEqual([
      'line 3: the locator\'s timecode is not one, so "Wrong" was left out',
    ]);
  });

  test('after midnight belongs to the event that runs over it', () => {
    const over = '001 CHAIN V C 00:00:10:00 00:00:20:00 23:59:55:00 00:00:05:00';
    expect(read([over, '* LOC: 00:00:01:00 GREEN Late']).marks).toEqual([['chapter', 'Late', 16]]);
  });
});

describe('lines beside the events', () => {
  test('name the clip above them, from or to', () => {
    const reel = (line: string) =>
      read([TEN.replace('CHAIN V C 00:00:10:00 00:00:20:00', 'AX V C 00:10:10:00 00:10:20:00'), line], two);
    // The second file begins where the first ends, at ten minutes.
    expect(reel('* FROM CLIP NAME: side.mp4').edit).toBe('610-620');
    expect(reel('* to clip name:  SIDE ').edit).toBe('610-620');
    expect(reel('* a word').notes).toEqual([
      'comment left out: * a word',
      '"event 001 of reel AX" is none of the camera files of chain, so it was left out'.replace(
        'event 001 of reel ',
        '',
      ),
    ]);
    expect(read(['* FROM CLIP NAME: side.mp4', TEN], two).edit).toBe('10-20');
  });

  test('that say nothing are passed over; comments and changes of speed are told', () => {
    expect(
      read(['', '  ', '001', 'TITLE: again', '*', '*  ', TEN, 'M2 CHAIN 050.0 00:00:10:00', '* why']).notes,
    ).toEqual(['a change of speed cannot be carried: M2 CHAIN 050.0 00:00:10:00', 'comment left out: * why']);
  });

  test.each([
    ['words', 'line 2 is not an event and was left out: words'],
    ['001 CHAIN V C 00:00:10:00', 'line 2 is not an event and was left out: 001 CHAIN V C 00:00:10:00'],
    [
      TEN.replace('00:00:20:00', '00:00:20:25'),
      'line 2: 00:00:20:25 is not a timecode at 25, so event 001 was left out',
    ],
  ])('%s is told by line', (line, note) => {
    expect(read([line, TEN.replace('001', '002')])).toMatchObject({ edit: '10-20', notes: [note] });
  });
});

test('transitions become cuts: wipes and keys by their signs', () => {
  for (const sign of ['D', 'W001', 'K', 'KB', 'KO']) {
    const { edit, notes } = read([TEN.replace(' C ', ` ${sign} 012 `)]);
    expect([edit, notes]).toEqual(['10-20', [`event 001: the transition ${sign} became a cut`]]);
  }
});

test('the picture decides; sound alone is used where there is nothing else', () => {
  const sound = '002 CHAIN A C 00:01:00:00 00:01:05:00 01:00:10:00 01:00:15:00';
  expect(read([TEN, sound, sound])).toMatchObject({
    ...{ edit: '10-20', notes: ['2 events of sound alone were left out: sound follows the picture here'] },
  });
  expect(read([TEN.replace(' V ', ' B '), sound.replace(' A ', ' AA/V ')])).toMatchObject({
    ...{ edit: '10-20 60-65', notes: [] },
  });
  expect(read([sound])).toMatchObject({ edit: '60-65', notes: [] });
});

test.each(['BL', 'black'])('%s is nothing that can be shown', (reel) => {
  expect(read([TEN.replace('CHAIN', reel)])).toMatchObject({
    ...{ edit: '', notes: ['event 001 is black, which an edit list cannot show'] },
  });
});

test('a way of counting that the rate does not know is told', () => {
  expect(read(['FCM: DROP FRAME', TEN])).toMatchObject({
    ...{ edit: '10-20', notes: ['the list says FCM: DROP FRAME, which 25 frames a second cannot be counted in'] },
  });
  for (const line of ['FCM: NON-DROP FRAME', 'fcm: non drop frame', 'FCM: NONDROP FRAME'])
    expect(read([line, TEN]).notes).toEqual([]);
});

test('what is no list is refused, with what one looks like', () => {
  expect(readEdl('words\n', recording)).toMatchObject({
    ...{ ok: false, problem: 'the file holds no event of an EDL' },
    help: expect.stringContaining('001  REEL  V  C'),
  });
  const { rate: _, ...unknown } = recording;
  expect(readEdl(TEN, unknown as typeof recording)).toMatchObject({
    ...{ ok: false, problem: 'the frame rate of chain is not known', help: 'write rate: in the recording file' },
  });
});
