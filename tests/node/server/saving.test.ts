import { mkdir, readdir, readFile, rmdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { COMMANDS, openSession, withContent } from '../../../src/core/edit/index.ts';
import { sweep } from '../../../src/node/files/sweep.ts';
import { at, facts } from '../../core/edit/support.ts';
import { mayMount, mountSmallDisk } from '../../support/small-disk.ts';
import { LESSON, RECORDING, type Served, serve } from './support.ts';

let room: Served;
beforeAll(async () => {
  room = await serve();
});
afterAll(() => room.close());

const SAVE = '/cutting-room/api/save/';
const lesson = () => readFile(join(room.content, 'lessons/pads.mdx'), 'utf8');
const save = (file: string, was: string | null, text: string) => room.own(SAVE, { changes: [{ file, was, text }] });

test('a change is on disk when the answer comes, and nothing else is beside it', async () => {
  const text = LESSON.replace('0:07:00', '0:07:10');
  expect((await save('lessons/pads.mdx', LESSON, text)).status).toBe(200);
  expect(await lesson()).toBe(text);
  expect(await readdir(join(room.content, 'lessons'))).toEqual(['pads.mdx']);
  await save('lessons/pads.mdx', text, LESSON);
});

test('a file changed underneath is never written over: the answer holds what it says now', async () => {
  const theirs = LESSON.replace('Bring a clean rag.', 'Bring two rags.');
  await writeFile(join(room.content, 'lessons/pads.mdx'), theirs);
  const answer = await save('lessons/pads.mdx', LESSON, LESSON.replace('0:07:00', '0:07:10'));
  expect(answer.status).toBe(409);
  expect(JSON.parse(answer.text).now['lessons/pads.mdx']).toBe(theirs);
  expect(await lesson()).toBe(theirs);
  await writeFile(join(room.content, 'lessons/pads.mdx'), LESSON);
});

test('captions that a recording names are opened as their bytes say, and saved whole; no others are', async () => {
  const captions = '\uFEFFWEBVTT\r\n\r\nunread-1\r\n00:01.000 --> 00:02.000\r\nHäng on.\r\n';
  const recording = `${RECORDING}captions: media/words.vtt\n`;
  await writeFile(join(room.content, 'media/words.vtt'), captions);
  await writeFile(join(room.content, 'media/other.vtt'), captions);
  expect((await save('media/words.vtt', captions, 'WEBVTT\n')).status).toBe(403);
  await writeFile(join(room.content, 'recordings/pads.yaml'), recording);
  const opened = async () => JSON.parse((await room.own('/cutting-room/api/open/?recording=pads')).text).texts;
  // The answer is read as bytes here.
  expect(Buffer.from((await opened())['media/words.vtt'], 'latin1').toString('utf8')).toBe(captions);
  const read = captions.replace('unread-1\r\n', '');
  expect((await save('media/words.vtt', captions, read)).status).toBe(200);
  expect(await readFile(join(room.content, 'media/words.vtt'), 'utf8')).toBe(read);
  expect((await save('media/words.vtt', captions, 'x')).status).toBe(409);
  for (const file of ['media/other.vtt', 'media/../shop.vtt', '../words.vtt', 'media/pads.mp4'])
    expect((await save(file, captions, 'x')).status, file).toBe(403);
  // Words in another encoding would not come back as they were, so they are not on the table.
  await writeFile(join(room.content, 'media/words.vtt'), Buffer.from(read.slice(1), 'latin1'));
  expect((await opened())['media/words.vtt']).toBeUndefined();
  await writeFile(join(room.content, 'recordings/pads.yaml'), RECORDING);
});

test('two files are saved together or not at all', async () => {
  const answer = await room.own(SAVE, {
    changes: [
      { file: 'recordings/pads.yaml', was: RECORDING, text: `${RECORDING}# more\n` },
      { file: 'lessons/pads.mdx', was: 'something else', text: 'x' },
    ],
  });
  expect(answer.status).toBe(409);
  expect(await readFile(join(room.content, 'recordings/pads.yaml'), 'utf8')).toBe(RECORDING);
});

test('a new lesson is written, one that is there already is not', async () => {
  expect((await save('lessons/new-one.mdx', null, '---\ntitle: x\n---\n')).status).toBe(200);
  expect((await save('lessons/new-one.mdx', null, 'other')).status).toBe(409);
  expect(await readFile(join(room.content, 'lessons/new-one.mdx'), 'utf8')).toBe('---\ntitle: x\n---\n');
});

test('a folder that may not be written to is told in words, and the file stays', async () => {
  // A file where the folder beside it should be written: refused to root too. Other refusals: tests/node/files.
  const locked = join(room.content, 'recordings/locked.yaml');
  await mkdir(locked);
  const answer = await save('recordings/locked.yaml', 'x', 'y');
  expect(answer.status).toBe(507);
  expect(JSON.parse(answer.text).problem).toBe(
    'recordings/locked.yaml could not be written: it is a folder, not a file',
  );
  await rmdir(locked);
});

test.skipIf(!mayMount())(
  'a full and a read-only disk are answered with the reason; freed, the save goes through',
  async () => {
    const disk = mountSmallDisk(join(room.content, 'lessons'));
    try {
      await writeFile(join(room.content, 'lessons/pads.mdx'), LESSON);
      const text = LESSON + 'More of it.\n'.repeat(1000);
      await disk.fill();
      const full = await save('lessons/pads.mdx', LESSON, text);
      expect([full.status, JSON.parse(full.text).problem]).toEqual([
        507,
        'lessons/pads.mdx could not be written: the disk is full',
      ]);
      await disk.free();
      disk.readOnly(true);
      const locked = await save('lessons/pads.mdx', LESSON, text);
      expect([locked.status, JSON.parse(locked.text).problem]).toEqual([
        507,
        'lessons/pads.mdx could not be written: the disk is read-only',
      ]);
      expect(await lesson()).toBe(LESSON);
      disk.readOnly(false);
      expect((await save('lessons/pads.mdx', LESSON, text)).status).toBe(200);
      expect(await lesson()).toBe(text);
    } finally {
      disk.unmount();
    }
  },
);

test('what a killed save left behind goes at the next start; the author’s own hidden files stay', async () => {
  const folder = join(room.content, 'lessons');
  await writeFile(join(folder, '.pads.mdx.0b8f4a3e-1111-4222-8333-abcdefabcdef'), 'half a less');
  await writeFile(join(folder, '.notes.mdx'), 'mine');
  await sweep(room.content);
  expect((await readdir(folder)).filter((name) => name.startsWith('.'))).toEqual(['.notes.mdx']);
});

test('edits at random, each saved, then all undone and saved: the bytes on disk are the first ones', async () => {
  const rows = COMMANDS.filter(
    ({ run: command, group }) => command && ['Cutting', 'Cues', 'Chapters and steps'].includes(group),
  );
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.tuple(fc.nat(rows.length - 1), fc.nat(1799)), { minLength: 1, maxLength: 5 }),
      async (acts) => {
        const texts = new Map([
          ['recordings/pads.yaml', RECORDING],
          ['lessons/pads.mdx', LESSON],
        ]);
        let session = openSession(
          { recordingFile: 'recordings/pads.yaml', lessonFile: 'lessons/pads.mdx', facts: facts() },
          texts,
        );
        const states = [session.content];
        let disk = new Map(texts);
        const store = async () => {
          const changes = [...session.content.texts].flatMap(([file, text]) =>
            disk.get(file) === text ? [] : [{ file, was: disk.get(file) ?? null, text }],
          );
          if (changes.length > 0) expect((await room.own(SAVE, { changes })).status).toBe(200);
          disk = new Map(session.content.texts);
        };
        for (const [index, second] of acts) {
          const outcome = rows[index]?.run?.({ ...session, playhead: at(second) }, `Step ${second}`);
          if (!outcome || 'refused' in outcome) continue;
          session = outcome.session;
          if (outcome.label) states.push(session.content);
          await store();
        }
        for (const content of states.toReversed()) {
          session = withContent(session, content);
          await store();
        }
        expect(await lesson()).toBe(LESSON);
        expect(await readFile(join(room.content, 'recordings/pads.yaml'), 'utf8')).toBe(RECORDING);
      },
    ),
    { numRuns: 12 },
  );
});
