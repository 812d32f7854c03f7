import { readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { discard, roomContent, startRoom } from '../../support/start-room.ts';
import { figures, inFolder } from '../support/run.ts';

const PADS = {
  'recordings/pads.yaml': 'title: Pads\nfiles: [{file: media/pads.mp4}]\nrate: "25"\n',
  'lessons/pads.mdx':
    '---\ntitle: Pads\nrecording: pads\nmachine: tarn-420\n---\n## Look\n\n### Look in\nFrom below.\n',
};

/** How editors put a new text in place of an old one. */
const SAVES = {
  'the new file over the old one': async (file: string, text: string) => {
    await writeFile(`${file}~`, text);
    await rename(`${file}~`, file);
  },
  'the old file away, then the new one in its place': async (file: string, text: string) => {
    await rename(file, `${file}.bak`);
    await pause(30);
    await writeFile(file, text);
    await rm(`${file}.bak`);
  },
  'emptied, then written': async (file: string, text: string) => {
    await writeFile(file, '');
    await pause(10);
    await writeFile(file, text);
  },
};

test('start answers no 500 while editors save under it, and writes nothing into the folder it is called in', async () => {
  await inFolder('start', async (cwd) => {
    const content = await roomContent(PADS);
    const room = await startRoom(content, undefined, cwd);
    const answers: Record<string, number> = {};
    const pages = ['', 'lessons/pads/', 'steps/', 'cutting-room/pads/', 'cutting-room/api/open/?recording=pads'];
    let asking = true;
    const asked = (async () => {
      for (let n = 0; asking; n++) {
        const { status } = await fetch(new URL(pages[n % pages.length] ?? '', room.address));
        answers[status] = (answers[status] ?? 0) + 1;
      }
    })();
    let [saves, round] = [0, 0];
    try {
      // On a busy machine answers take long: it goes on until there are enough of them.
      for (; round < 4 || (answers['200'] ?? 0) < 12; round++)
        for (const save of Object.values(SAVES))
          for (const [file, text] of Object.entries(PADS)) {
            await save(join(content, file), text.replace('Pads', `Pads ${round}`));
            saves++;
            await pause(200);
          }
      // A whole folder away for a moment, as a synchronising program does it.
      await rename(join(content, 'lessons'), join(content, '.lessons'));
      await pause(500);
      await rename(join(content, '.lessons'), join(content, 'lessons'));
    } finally {
      asking = false;
      await asked;
      await room.stop();
    }
    figures('editors saving under start', {
      saves,
      ...Object.fromEntries(Object.entries(answers).map(([s, n]) => [`answers ${s}`, n])),
    });
    expect(Object.keys(answers).filter((status) => Number(status) >= 500)).toEqual([]);
    expect(answers['200']).toBeGreaterThanOrEqual(12);
    expect(await readdir(cwd)).toEqual([]);
    expect(await readFile(join(content, 'lessons/pads.mdx'), 'utf8')).toContain(`Pads ${round - 1}`);
    await discard(content);
  });
});

test('start killed over and over while a phone logs: after each start at the same port the phone is still let in, and every tap that was confirmed is in the log, once', async () => {
  const content = await roomContent(PADS);
  let room = await startRoom(content);
  let phone = '';
  let host = '';
  const own = async (path: string, body?: object) => {
    const page = await (await fetch(new URL('cutting-room/pads/', room.address))).text();
    const token = /"token":"([^"]+)"/.exec(page)?.[1] ?? '';
    const answer = await fetch(new URL(`cutting-room/api/${path}`, room.address), {
      headers: {
        'x-liftside-token': token,
        'sec-fetch-site': 'same-origin',
        origin: new URL(room.address).origin,
        'content-type': 'application/json',
      },
      ...(body && { method: 'POST', body: JSON.stringify(body) }),
    });
    expect([path, answer.status]).toEqual([path, 200]);
    return JSON.parse(await answer.text());
  };
  const post = async (path: string, body: object) => {
    const answer = await fetch(new URL(path, host), {
      method: 'POST',
      headers: { 'x-liftside-phone': phone, 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    return { status: answer.status, text: await answer.text() };
  };
  try {
    const invited = new URL((await own('phone/open/', { lesson: 'pads' })).url);
    host = invited.origin;
    phone = JSON.parse((await post('/pair/', { token: invited.hash.slice(1) })).text).phone;
    const confirmed: string[] = [];
    let [kills, cutOff] = [0, 0];
    for (; kills < 10; kills++) {
      let alive = true;
      const taps = (async () => {
        for (let n = 0; alive; n++) {
          const id = `tap-${kills}-${n}`;
          const answer = await post('/taps/', { taps: [{ id, lesson: 'pads', at: n, kind: 'clap' }] }).catch(() => {
            cutOff++;
          });
          if (answer?.status === 200) confirmed.push(id);
          else alive = false;
        }
      })();
      const enough = confirmed.length + 3;
      while (confirmed.length < enough && alive) await pause(5);
      expect(alive).toBe(true);
      await pause(kills * 7);
      await room.stop('SIGKILL');
      await taps;
      room = await startRoom(content, Number(new URL(room.address).port));
      expect((await own('phones/')).open).toMatchObject({ hosts: [new URL(host).host], phones: 1 });
    }
    const ids = (await own('shoot-log/?lesson=pads')).taps.map(({ id }: { id: string }) => id);
    expect(ids.filter((id: string, i: number) => ids.indexOf(id) !== i)).toEqual([]);
    expect(confirmed.filter((id) => !ids.includes(id))).toEqual([]);
    figures('start killed while a phone logs', {
      kills,
      'taps confirmed': confirmed.length,
      'cut off': cutOff,
      lost: 0,
    });
  } finally {
    await room.stop();
    await discard(content);
  }
});
