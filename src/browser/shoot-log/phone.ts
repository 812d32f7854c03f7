import { button, element } from './element.ts';
import { Moving } from './moving.ts';
import { type Said, shotList } from './shot-list.ts';
import { loadKept, type PhoneState, type Shot, storeKept, type Tap, takenIn, waitingTaps } from './taps.ts';
import { ask, Refused } from './wire.ts';
import { type Link, whereTapsAre } from './words.ts';

const RETRY_MS = 3000;
/** Taps that are sent together. */
const BATCH = 200;
const CAMERA_TIME = /^\d{2}:\d{2}:\d{2}[:;]\d{2}$/;

const root = document.querySelector('#shoot-log');
const movingRoot = document.querySelector<HTMLElement>('#moving');
let kept: PhoneState = loadKept(localStorage);
let stored = true;
let link: Link = 'there';
let problem = '';
let said = '';
let sending = false;
let retry: ReturnType<typeof setInterval> | undefined;

function keep(next: PhoneState): void {
  kept = next;
  stored = storeKept(localStorage, kept);
}

/** What an answer, or none, says about the link. A phone that is not let in any more stops asking. */
function showFailure(error: unknown): void {
  link = !(error instanceof Refused) ? 'away' : error.forGood ? 'refused' : 'failing';
  problem = error instanceof Refused ? error.message : '';
  if (link === 'refused') clearInterval(retry);
}

async function pair(): Promise<void> {
  const token = location.hash.slice(1);
  if (token === '') return;
  history.replaceState(null, '', location.pathname);
  const { phone } = await ask<{ phone: string }>(kept.phone, '/pair/', { token });
  keep({ ...kept, phone });
}

async function fetchList(): Promise<void> {
  const list = await ask<{ lesson: string; title: string; shots: Shot[]; taps: Tap[] }>(kept.phone, '/list/');
  // Taps of other lessons stay only while they wait.
  const own = kept.taps.filter(({ id, lesson }) => lesson === list.lesson || kept.waiting.includes(id));
  const all = new Map([...list.taps, ...own].map((tap) => [tap.id, tap]));
  keep({ ...kept, ...list, taps: [...all.values()].toSorted((a, b) => a.at - b.at) });
}

/** Sends what waits; what is not confirmed stays and is sent again. */
async function send(): Promise<void> {
  if (sending || kept.waiting.length === 0 || !kept.phone || link === 'refused') return;
  sending = true;
  try {
    const answer = await ask<{ kept: string[] }>(kept.phone, '/taps/', { taps: waitingTaps(kept).slice(0, BATCH) });
    keep({ ...kept, waiting: kept.waiting.filter((id) => !answer.kept.includes(id)) });
    link = 'there';
  } catch (error) {
    showFailure(error);
  } finally {
    sending = false;
  }
  draw();
  if (link === 'there' && kept.waiting.length > 0) void send();
}

function tap(more: Said): void {
  const lesson = kept.lesson;
  if (lesson === undefined) return;
  const dice = [...crypto.getRandomValues(new Uint8Array(8))]
    .map((byte) => byte.toString(36).padStart(2, '0'))
    .join('');
  const at = Date.now();
  said = more.kind === 'camera' ? `Noted: the camera shows ${more.shows ?? ''}.` : '';
  keep(takenIn(kept, [{ id: `${at.toString(36)}-${dice}`, lesson, at, ...more }]));
  draw();
  void send();
}

function cameraForm(): HTMLElement {
  const input = element('input', {
    id: 'shows',
    inputmode: 'numeric',
    placeholder: '01:00:00:00',
    autocomplete: 'off',
    pattern: '\\d{2}:\\d{2}:\\d{2}[:;]\\d{2}',
  });
  const form = element(
    'form',
    {},
    element('label', { for: 'shows' }, 'Time the camera shows: type it ahead, tap when it comes'),
    input,
    element('button', { type: 'submit' }, 'Now'),
  );
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    if (CAMERA_TIME.test(input.value)) return tap({ kind: 'camera', shows: input.value });
    said = 'A camera time reads hh:mm:ss:ff, such as 01:02:03:04.';
    draw();
  });
  return form;
}

function draw(): void {
  if (!root) return;
  const typed = document.querySelector<HTMLInputElement>('#shows')?.value ?? '';
  const typing = document.activeElement?.id === 'shows';
  const state = whereTapsAre({ link, waiting: kept.waiting.length, stored, problem });
  const list = kept.lesson !== undefined;
  root.replaceChildren(
    element('h1', {}, kept.title ?? 'Shoot log'),
    element('p', { role: 'status', class: link }, said === '' ? state : `${said} ${state}`),
    ...(list
      ? [
          cameraForm(),
          shotList(kept, tap),
          element(
            'div',
            { class: 'bar' },
            button('Clap', {}, () => tap({ kind: 'clap' })),
            button('Camera rests', {}, () => tap({ kind: 'rest' })),
          ),
        ]
      : []),
  );
  const input = document.querySelector<HTMLInputElement>('#shows');
  if (input) input.value = typed;
  if (typing) input?.focus();
  moving?.draw(link === 'refused' || !stored);
}

const moving =
  movingRoot &&
  new Moving(movingRoot, {
    waiting: () => waitingTaps(kept),
    takeIn: (taps) => {
      keep(takenIn(kept, taps));
      draw();
      void send();
    },
  });

async function start(): Promise<void> {
  draw();
  try {
    await pair();
    await fetchList();
  } catch (error) {
    showFailure(error);
  }
  draw();
  if (link === 'refused') return;
  await send();
  retry = setInterval(() => void (kept.lesson === undefined ? again() : send()), RETRY_MS);
  addEventListener('online', () => void send());
}

/** A page that was opened while nobody answered has no list yet. */
async function again(): Promise<void> {
  try {
    await fetchList();
    link = 'there';
  } catch (error) {
    showFailure(error);
  }
  draw();
}

void start();
