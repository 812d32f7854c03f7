import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { ProgrammeMedia } from '../../../src/browser/player/programme-media.ts';
import type { PlayPlan } from '../../../src/core/programme/index.ts';
import { edit, span } from '../../support/edit.ts';
import { type FakeVideo, install } from '../../support/fake-video.ts';

// Two camera files of 100 s; 0-20 and 30-50 are kept of the first, 90-110 goes over into the second.
const PLAN: PlayPlan = {
  files: [
    { url: '/a.mp4', recording: span('0-100') },
    { url: '/b.mp4', recording: span('100-200') },
  ],
  kept: edit('0-20 30-50 90-110'),
};

let takeAway: () => void;
let media: ProgrammeMedia;
let decks: FakeVideo[];
let told: string[];
const onAir = () => media.video as unknown as FakeVideo;
const standby = () => decks.find((deck) => deck !== onAir())!;
const settle = () => vi.advanceTimersByTimeAsync(0);
const arrive = async (deck = onAir()) => {
  deck.know();
  await settle();
  deck.show();
  await settle();
};

function makeMedia(): void {
  media = new ProgrammeMedia();
  decks = (media.element as unknown as FakeVideo).children;
  told = [];
  for (const type of ['play', 'pause', 'playing', 'seeking', 'seeked', 'ended', 'waiting', 'error', 'loadedmetadata'])
    media.addEventListener(type, () => told.push(type));
}

beforeEach(async () => {
  vi.useFakeTimers();
  takeAway = install();
  makeMedia();
  media.load(PLAN);
  await settle();
});
afterEach(() => {
  media.dispose();
  takeAway();
  vi.useRealTimers();
});

/** Playing, from a moment of the programme, the next piece waiting on the other deck. */
async function playFrom(seconds: number): Promise<void> {
  await arrive();
  media.currentTime = seconds;
  await settle();
  await arrive(decks.find((deck) => deck.seeking) ?? onAir());
  await media.play();
  await arrive(standby());
  told.length = 0;
}

test('it shows the first frame, tells its length and says once that it is there', async () => {
  expect(media.seeking).toBe(true);
  await arrive();
  expect([media.duration, media.currentTime, media.paused, media.seeking]).toEqual([
    60,
    expect.closeTo(0, 2),
    true,
    false,
  ]);
  expect(told).toEqual(['loadedmetadata', 'seeked']);
  media.currentTime = 5;
  await settle();
  await arrive();
  expect(told.filter((type) => type === 'loadedmetadata')).toHaveLength(1);
});

test('a moment of the programme is a moment of a file: cuts are left out, and the second file begins anew', async () => {
  await arrive();
  for (const [programme, url, seconds] of [
    [19, '/a.mp4', 19],
    [25, '/a.mp4', 35],
    [45, '/a.mp4', 95],
    [55, '/b.mp4', 5],
  ] as const) {
    media.currentTime = programme;
    expect(media.currentTime).toBeCloseTo(programme, 6);
    await settle();
    await arrive(decks.find((deck) => deck.src === url && (deck.seeking || deck.readyState === 0)) ?? onAir());
    await settle();
    expect([onAir().src, onAir().currentTime], `${programme}`).toEqual([url, expect.closeTo(seconds, 2)]);
    expect(media.currentTime).toBeCloseTo(programme, 2);
  }
});

test('sought past either end, it stays at that end', async () => {
  await arrive();
  media.currentTime = -5;
  expect(media.currentTime).toBe(0);
  media.currentTime = 500;
  expect(media.currentTime).toBe(60);
});

test('at a cut the other deck takes over, by a timer that is set with each report, and nothing of the cut is shown', async () => {
  await playFrom(18);
  const [before, after] = [onAir(), standby()];
  expect(after.currentTime).toBeCloseTo(30, 2);
  before.reach(19.5);
  // Half a second is too early for a timer: another report comes before.
  await vi.advanceTimersByTimeAsync(600);
  expect(onAir()).toBe(before);
  before.reach(19.7);
  // 300 ms are left; the timer rings two before the end and looks again.
  await vi.advanceTimersByTimeAsync(297);
  expect(onAir()).toBe(before);
  before.reach(19.997);
  await settle();
  expect(onAir()).toBe(after);
  expect([before.paused, after.paused, after.muted, before.muted]).toEqual([true, false, false, true]);
  expect(media.currentTime).toBeCloseTo(20, 2);
  expect(told).toContain('playing');
  expect(told).not.toContain('pause');
  expect(told).not.toContain('waiting');
});

test('at double speed the cut comes in half the time', async () => {
  await playFrom(18);
  const before = onAir();
  media.playbackRate = 2;
  expect(decks.map(({ playbackRate }) => playbackRate)).toEqual([2, 2]);
  before.reach(19.3);
  // 0.7 s of the recording are 350 ms.
  await vi.advanceTimersByTimeAsync(347);
  expect(onAir()).toBe(before);
  before.reach(19.994);
  await settle();
  expect(onAir()).not.toBe(before);
});

test('a piece that ends with its file ends by the element’s own word', async () => {
  await playFrom(49);
  const before = onAir();
  before.reach(99.999);
  await vi.advanceTimersByTimeAsync(1000);
  expect(onAir()).toBe(before);
  before.ended = true;
  before.tell('ended');
  await settle();
  expect(onAir().src).toBe('/b.mp4');
  expect(media.currentTime).toBeCloseTo(50, 2);
});

test('a next piece that is not loaded yet is waited for, and told', async () => {
  await playFrom(18);
  const next = standby();
  next.readyState = 1;
  onAir().reach(20);
  await settle();
  expect(told).toEqual(['waiting']);
  expect(onAir()).not.toBe(next);
  await arrive(next);
  expect(onAir()).toBe(next);
  expect(told).toEqual(['waiting', 'playing']);
});

test('the programme ends once, paused, at its length; played again it begins anew', async () => {
  await playFrom(59);
  onAir().reach(10);
  await settle();
  expect(told).toEqual(['pause', 'ended']);
  expect([media.ended, media.paused, media.currentTime]).toEqual([true, true, 60]);
  void media.play();
  expect([media.ended, media.currentTime]).toEqual([false, 0]);
});

test('sought while it waits for the picture, only the last place counts', async () => {
  await arrive();
  media.currentTime = 5;
  media.currentTime = 12;
  await settle();
  told.length = 0;
  await arrive();
  expect(told.filter((type) => type === 'seeked')).toHaveLength(1);
  expect(media.currentTime).toBeCloseTo(12, 2);
});

test('a browser that wants a gesture first leaves it paused, and says so', async () => {
  await arrive();
  for (const deck of decks) deck.refusal = new DOMException('a gesture first', 'NotAllowedError');
  await expect(media.play()).rejects.toThrow('a gesture first');
  expect(media.paused).toBe(true);
  for (const deck of decks) deck.refusal = new DOMException('overtaken', 'AbortError');
  await media.play();
  expect(media.paused).toBe(false);
});

test('paused and started from outside, by a media key, it follows', async () => {
  await playFrom(5);
  onAir().pause();
  onAir().tell('pause');
  expect([media.paused, told]).toEqual([true, ['pause']]);
  await onAir().play();
  onAir().tell('play');
  expect([media.paused, told]).toEqual([false, ['pause', 'play']]);
});

test('what the deck in waiting says is not passed on, nor heard', async () => {
  await playFrom(5);
  standby().tell('playing');
  standby().fail();
  expect([told, media.error]).toEqual([[], undefined]);
  media.muted = true;
  expect(decks.map(({ muted }) => muted)).toEqual([true, true]);
  media.muted = false;
  expect([onAir().muted, standby().muted]).toEqual([false, true]);
});

test('a file that fails stops it, with the reason', async () => {
  await playFrom(5);
  onAir().fail();
  await settle();
  expect([told, media.paused, media.error?.why]).toEqual([['pause', 'error'], true, 'file']);
});

// The picture is looked at so many milliseconds after it was asked for, and is at a second of its file by then.
test.each([
  ['playing, as far on as the page is late', true, 3000, 12.9, undefined],
  ['playing, further on than that', true, 3000, 14, 'server'],
  ['playing, before the place', true, 3000, 9.4, 'server'],
  ['standing still, where it was sent', false, 3000, 10.4, undefined],
  ['standing still, anywhere else', false, 3000, 12.9, 'server'],
] as const)('a picture that is looked at late: %s', async (_, playing, late, at, why) => {
  await playFrom(2);
  if (!playing) media.pause();
  media.currentTime = 10;
  await settle();
  vi.advanceTimersByTime(late);
  onAir().reach(at);
  await arrive();
  expect(media.error?.why).toBe(why);
});

test('disposed of, it rings no timer and hears nothing more', async () => {
  await playFrom(18);
  const before = onAir();
  before.reach(19.9);
  media.dispose();
  await vi.advanceTimersByTimeAsync(1000);
  before.tell('ended');
  expect([onAir(), told]).toEqual([before, []]);
});

test('disposed of while a picture is waited for, it asks no server why there is none', async () => {
  const ask = vi.spyOn(globalThis, 'fetch');
  media.load({ ...PLAN, files: PLAN.files.map(({ recording }) => ({ url: 'http://127.0.0.1/gone.mp4', recording })) });
  await settle();
  media.dispose();
  await settle();
  expect([ask.mock.calls, media.error]).toEqual([[], undefined]);
  ask.mockRestore();
});

// An hour in one file, with an opening that holds its first ten seconds, of which half a second is not played.
const BY_OPENING: PlayPlan = {
  files: [{ url: '/hour.mp4', recording: span('0-3600') }],
  kept: edit('0-3600'),
  openings: [{ url: '/opening.mp4', recording: span('0-10.5') }],
};

/** Playing from a moment on, as somebody pressed who has loaded nothing before. */
async function press(seconds: number): Promise<void> {
  media.dispose();
  makeMedia();
  media.play();
  media.load(BY_OPENING, seconds);
  await settle();
}

test('a film begins by its opening, and is asked for only when that runs', async () => {
  await press(3);
  expect([onAir().src, standby().src]).toEqual(['/opening.mp4', '']);
  expect(onAir().preload).toBe('auto');
  await arrive();
  expect([onAir().paused, media.currentTime, standby().src]).toEqual([false, expect.closeTo(3, 2), '']);
  onAir().reach(3.25);
  expect(standby().src).toBe('/hour.mp4');
  await arrive(standby());
  expect(standby().currentTime).toBeCloseTo(10, 2);
});

test('the film takes over from its opening without a stop, at the same moment', async () => {
  await press(3);
  await arrive();
  const opening = onAir();
  opening.reach(3.25);
  await arrive(standby());
  told.length = 0;
  opening.reach(9.998);
  await settle();
  expect([onAir().src, onAir().paused, opening.paused]).toEqual(['/hour.mp4', false, true]);
  expect(media.currentTime).toBeCloseTo(10, 2);
  expect(told).toEqual(['playing']);
  // At hand now: back in the stretch of the opening, the film itself is shown.
  media.currentTime = 3;
  await settle();
  await arrive();
  expect([onAir().src, media.currentTime]).toEqual(['/hour.mp4', expect.closeTo(3, 2)]);
});

test('who goes past the opening while it runs waits for the film', async () => {
  await press(3);
  await arrive();
  media.currentTime = 2000;
  await settle();
  expect([standby().src, media.currentTime]).toEqual(['/hour.mp4', 2000]);
  await arrive(standby());
  expect([onAir().src, onAir().paused, onAir().currentTime]).toEqual(['/hour.mp4', false, expect.closeTo(2000, 2)]);
});

test('where the opening is gone, the film begins without it', async () => {
  await press(3);
  onAir().fail();
  await settle();
  await arrive(standby());
  expect([onAir().src, onAir().paused, media.error]).toEqual(['/hour.mp4', false, undefined]);
  expect(media.currentTime).toBeCloseTo(3, 2);
});

test('who comes to listen late is told how things stand', async () => {
  await press(3);
  const late: string[] = [];
  for (const type of ['loadstart', 'durationchange', 'loadedmetadata', 'canplay', 'play', 'playing', 'waiting'])
    media.addEventListener(type, () => late.push(type));
  media.tellAgain();
  expect(late).toEqual(['loadstart', 'durationchange', 'play', 'waiting']);
  await arrive();
  late.length = 0;
  media.tellAgain();
  expect(late).toEqual(['loadstart', 'durationchange', 'loadedmetadata', 'canplay', 'play', 'playing']);
  media.pause();
  late.length = 0;
  media.tellAgain();
  expect(late).toEqual(['loadstart', 'durationchange', 'loadedmetadata', 'canplay']);
});
