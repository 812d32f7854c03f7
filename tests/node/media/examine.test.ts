import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { packetsOf } from '../../../src/node/media/adts.ts';
import { examine, findCopyPoints, presentationTimes } from '../../../src/node/media/examine.ts';
import { isEvenToFfprobe, startsFrom } from '../../../src/node/media/picture-starts.ts';
import { sideBySide } from '../../../src/node/media/side-by-side.ts';
import { FakeFfmpeg } from '../../support/fake-ffmpeg.ts';

const SECOND = 705_600_000;

let folder: string;
let file: string;
let fake: FakeFfmpeg;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'liftside-examine-'));
  file = join(folder, 'a.mp4');
  await writeFile(file, 'not a film');
  fake = await FakeFfmpeg.make();
});
afterEach(async () => {
  await rm(folder, { recursive: true, force: true });
  await fake.remove();
});

const VIDEO = { index: 1, codec_type: 'video', codec_name: 'h264', pix_fmt: 'yuv420p', avg_frame_rate: '30000/1001' };
const AUDIO = { index: 2, codec_type: 'audio', channels: 2, sample_rate: '44100', start_time: '1.5', duration: '8.5' };
const look = async (streams: object[], format: object = {}) => {
  await fake.answers({ stdout: JSON.stringify({ streams, format }) });
  return examine(file, fake.tools);
};

describe('what ffprobe says of a camera file', () => {
  test('is read stream by stream; the picture on a cover is none, and a track without channels no sound', async () => {
    const cover = { ...VIDEO, index: 0, disposition: { attached_pic: 1 } };
    const silent = { index: 3, codec_type: 'audio', channels: 0 };
    const found = await look([cover, VIDEO, AUDIO, silent], {
      format_name: 'mov',
      start_time: '1.25',
      duration: '10',
    });
    expect(found).toMatchObject({ container: 'mov', clock: 1.25, picture: { stream: 1, start: 1.25, length: 10 } });
    expect(found.picture?.framesPerSecond).toBeCloseTo(29.97003, 5);
    expect(found.sounds).toEqual([{ stream: 2, channels: 2, sampleRate: 44_100, start: 1.5, length: 8.5 }]);
  });

  test('may leave out most of it', async () => {
    const found = await look(
      [
        { index: 0, codec_type: 'video' },
        { ...AUDIO, start_time: undefined, duration: undefined },
      ],
      {
        start_time: 'N/A',
        duration: '4',
      },
    );
    expect(found).toMatchObject({ container: 'unknown', clock: 0, sounds: [{ start: 0, length: 4 }] });
    expect(found.picture).toMatchObject({
      codec: 'unknown',
      framesPerSecond: 0,
      interlaced: false,
      rotation: 0,
      length: 4,
    });
    expect((await look([])).picture).toBeUndefined();
  });

  // ffprobe counts a turn against the clock; we say how to turn the picture, with it.
  test.each([
    [-90, 90],
    [90, 270],
    [180, 180],
    [-180, 180],
    [0, 0],
    [45, 0],
    [-450, 90],
  ])('a turn of %d° is shown turned by %d°', async (rotation, clockwise) => {
    const { picture } = await look([{ ...VIDEO, side_data_list: [{}, { rotation }] }]);
    expect(picture?.rotation).toBe(clockwise);
  });

  test.each([
    ['progressive', false],
    ['unknown', false],
    [undefined, false],
    ['tt', true],
    ['bb', true],
  ])('field order %s', async (field_order, interlaced) =>
    expect((await look([{ ...VIDEO, field_order }])).picture?.interlaced).toBe(interlaced),
  );

  test.each([
    [[], 'it has no picture'],
    [[{ ...VIDEO, codec_name: 'hevc' }], 'its picture is hevc, not H.264'],
    [[{ ...VIDEO, pix_fmt: 'yuv422p10le' }], 'its picture is stored as yuv422p10le, which few players show'],
    [[{ ...VIDEO, field_order: 'tt' }], 'its picture is interlaced'],
    [[VIDEO], expect.stringContaining('its index cannot be read')],
  ])('of %j nothing is copied', async (streams, refused) =>
    expect(await findCopyPoints(await look(streams), SECOND / 25, 0)).toEqual({ points: { refused } }),
  );
});

describe('when pictures are shown', () => {
  test('is asked of the picture’s own stream, at places or of all, and known of every picture or of none', async () => {
    const found = await look([VIDEO]);
    await fake.answers({ stdout: JSON.stringify({ packets: [{ pts_time: '0.04' }, { pts_time: '0' }] }) });
    expect(await presentationTimes(found, fake.tools, '2%+#24')).toEqual([0.04, 0]);
    const [, asked = []] = await fake.calls();
    expect(asked.join(' ')).toContain('-read_intervals 2%+#24 -select_streams 1 -show_entries packet=pts_time');
    await fake.answers({ stdout: JSON.stringify({ packets: [{ pts_time: '0.04' }, {}] }) });
    expect(await presentationTimes(found, fake.tools)).toEqual([]);
    expect((await fake.calls())[2]?.join(' ')).not.toContain('-read_intervals');
    expect(await presentationTimes(await look([AUDIO]), fake.tools)).toEqual([]);
  });

  /** Pictures at 25 a second from a place on, one of them moved by frames, or left out. */
  const even = async (moved: number | 'missing', place = 3) => {
    const asked: string[] = [];
    const answer = await isEvenToFfprobe(
      async (where) => {
        asked.push(where);
        const first = Math.round(Number(where.split('%')[0]) * 25);
        return Array.from({ length: 24 }, (_, i) => i).flatMap((i) => {
          const off = asked.length - 1 === place && i === 12 ? moved : 0;
          return off === 'missing' ? [] : [(first + i + off) / 25];
        });
      },
      0,
      800 * SECOND,
      SECOND / 25,
    );
    return { answer, asked };
  };
  test('is even where every picture looked at lies within a quarter of a frame of its place', async () => {
    expect((await even(0)).answer).toBe(true);
    expect((await even(0.2)).answer).toBe(true);
    expect((await even(-0.2)).answer).toBe(true);
    expect((await even(0.3)).answer).toBe(false);
    expect((await even(-0.3)).answer).toBe(false);
    expect((await even('missing')).answer).toBe(false);
    expect((await even(0.3, 7)).answer).toBe(false);
  });
  test('is looked at in eight places spread over the file, 24 pictures each', async () =>
    expect((await even(0)).asked).toEqual([0, 100, 200, 300, 400, 500, 600, 700].map((s) => `${s}.000%+#24`)));

  test('as starts they are in order, none twice, none outside', () =>
    expect(startsFrom([1.08, 1, 1.04, 1.04, 0.96, 1.2], SECOND, 0.2 * SECOND)).toEqual(
      [0, 0.04, 0.08].map((s) => Math.round(s * SECOND)),
    ));
});

// ISO/IEC 13818-7, 6.2: twelve bits of ones; the length of the packet, header included, in bits 30 to 42.
describe('ADTS', () => {
  const packet = (length: number) => {
    const bytes = Buffer.alloc(length);
    bytes.writeUInt16BE(0xfff1, 0);
    bytes.writeUInt8(0x40 | (length >> 11), 3);
    bytes.writeUInt8((length >> 3) & 0xff, 4);
    bytes.writeUInt8(((length & 7) << 5) | 0x1f, 5);
    return bytes;
  };
  test('packets are found by their own lengths', () =>
    expect(packetsOf(Buffer.concat([7, 8, 371, 2049, 8191].map(packet))).map(({ length }) => length)).toEqual([
      7, 8, 371, 2049, 8191,
    ]));
  test('what is none is refused, with its place', () => {
    expect(() => packetsOf(Buffer.concat([packet(20), Buffer.alloc(20)]))).toThrow('no ADTS packet begins at byte 20');
    expect(() => packetsOf(Buffer.from([0xff, 0xf1, 0, 0, 0, 0xc0, 0]))).toThrow(
      'the ADTS packet at byte 0 has no length',
    );
  });
});

describe('things done side by side', () => {
  const until = (signal: AbortSignal) =>
    new Promise<void>((done) => signal.addEventListener('abort', () => done(), { once: true }));
  test('the first that fails stops the others, which have ended when it is told', async () => {
    const ended: string[] = [];
    const works = [
      async (signal: AbortSignal) => {
        await until(signal);
        ended.push('slow');
        throw new Error('stopped');
      },
      async () => {
        throw new Error('the first');
      },
    ];
    await expect(sideBySide(new AbortController().signal, works)).rejects.toThrow('the first');
    expect(ended).toEqual(['slow']);
  });
  test('so many at a time, in their order; none begins after a failure', async () => {
    const begun: number[] = [];
    const gates: { resolve(): void; reject(error: unknown): void }[] = [];
    const works = [0, 1, 2, 3].map((i) => () => {
      begun.push(i);
      return new Promise<void>((resolve, reject) => gates.push({ resolve, reject }));
    });
    const done = sideBySide(undefined, works, 2);
    expect(begun).toEqual([0, 1]);
    gates[1]?.resolve();
    await expect.poll(() => begun).toEqual([0, 1, 2]);
    gates[0]?.reject(new Error('the first'));
    gates[2]?.resolve();
    await expect(done).rejects.toThrow('the first');
    expect(begun).toEqual([0, 1, 2]);
  });
  test('stopped from outside, it says why', async () => {
    const outer = new AbortController();
    const work = sideBySide(outer.signal, [until]);
    outer.abort(new Error('enough'));
    await expect(work).rejects.toThrow('enough');
    await expect(sideBySide(new AbortController().signal, [async () => 1])).resolves.toBeUndefined();
  });
});
