// This file is handed to the phone as it stands, without its types: it imports nothing.
interface Shot {
  id: string;
  kind: 'chapter' | 'step';
  title: string;
}
interface Tap {
  id: string;
  at: number;
  kind: 'begin' | 'good' | 'bad' | 'rest' | 'clap' | 'camera';
  step?: string;
  take?: number;
  shows?: string;
}
interface Kept {
  phone?: string;
  lesson?: string;
  title?: string;
  shots: Shot[];
  taps: Tap[];
  /** Ids of taps that the cutting room has not confirmed yet. */
  waiting: string[];
}

const KEY = 'liftside-shoot-log';
const RETRY_MS = 3000;
const root = document.querySelector('#shoot-log');
let kept: Kept = { shots: [], taps: [], waiting: [] };
let away = false;

function load(): void {
  try {
    const value: unknown = JSON.parse(localStorage.getItem(KEY) ?? 'null');
    if (typeof value === 'object' && value !== null && 'taps' in value) kept = value as Kept;
  } catch {
    // Nothing kept, or damaged: the list comes from the cutting room again.
  }
}

function keep(): void {
  localStorage.setItem(KEY, JSON.stringify(kept));
}

async function ask(path: string, body?: unknown): Promise<unknown> {
  const headers: Record<string, string> = { 'x-liftside-phone': kept.phone ?? '' };
  if (body !== undefined) headers['content-type'] = 'application/json';
  const answer = await fetch(path, {
    method: body === undefined ? 'GET' : 'POST',
    headers,
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
  const value: { problem?: string } = await answer.json();
  if (!answer.ok) throw new Refused(value.problem ?? 'the cutting room refused');
  return value;
}

class Refused extends Error {}

async function pair(): Promise<void> {
  const token = location.hash.slice(1);
  if (token === '') return;
  history.replaceState(null, '', location.pathname);
  const { phone } = (await ask('/pair/', { token })) as { phone: string };
  kept = { phone, shots: [], taps: kept.taps, waiting: kept.waiting };
  keep();
}

async function fetchList(): Promise<void> {
  const list = (await ask('/list/')) as { lesson: string; title: string; shots: Shot[]; taps: Tap[] };
  // The log of another lesson is not mixed into this one.
  const own = kept.lesson === list.lesson || kept.lesson === undefined ? kept.taps : [];
  const all = new Map([...list.taps, ...own].map((tap) => [tap.id, tap]));
  kept = { ...kept, ...list, taps: [...all.values()].sort((a, b) => a.at - b.at) };
  keep();
}

/** Sends what waits; without a network it stays and is sent later. */
async function send(): Promise<void> {
  if (kept.waiting.length === 0 || !kept.phone) return;
  const batch = kept.taps.filter(({ id }) => kept.waiting.includes(id)).slice(0, 200);
  try {
    const answer = (await ask('/taps/', { taps: batch })) as { kept: string[] };
    kept.waiting = kept.waiting.filter((id) => !answer.kept.includes(id));
    away = false;
    keep();
  } catch (error) {
    away = !(error instanceof Refused);
    if (error instanceof Refused) say(error.message);
  }
  draw();
}

function tap(more: Omit<Tap, 'id' | 'at'>): void {
  const id = `${Date.now().toString(36)}-${Math.random().toString(36).slice(2, 10)}`;
  kept.taps.push({ id, at: Date.now(), ...more });
  kept.waiting.push(id);
  keep();
  draw();
  void send();
}

function takesOf(step: string): number {
  return kept.taps.filter((t) => t.kind === 'begin' && t.step === step).length;
}

function running(): Tap | undefined {
  const last = kept.taps.filter(({ kind }) => kind === 'begin' || kind === 'rest').at(-1);
  return last?.kind === 'begin' ? last : undefined;
}

function verdictOf(step: string, take: number): string | undefined {
  return kept.taps.filter((t) => (t.kind === 'good' || t.kind === 'bad') && t.step === step && t.take === take).at(-1)
    ?.kind;
}

function element<K extends keyof HTMLElementTagNameMap>(
  name: K,
  props: Record<string, string> = {},
  ...children: (Node | string)[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(props)) made.setAttribute(key, value);
  made.append(...children);
  return made;
}

function button(text: string, props: Record<string, string>, press: () => void, ...more: Node[]): HTMLButtonElement {
  const made = element('button', { type: 'button', ...props }, text, ...more);
  made.addEventListener('click', press);
  return made;
}

function line(shot: Shot, on: Tap | undefined): HTMLElement {
  const takes = takesOf(shot.id);
  const here = on?.step === shot.id;
  const words = takes === 0 ? 'not shot yet' : `take ${takes}${here ? ', running' : ''}`;
  const begin = button(
    shot.title,
    { class: 'begin', 'data-step': shot.id },
    () => tap({ kind: 'begin', step: shot.id, take: takes + 1 }),
    element('span', { class: 'take' }, words),
  );
  const item = element('li', here ? { class: 'on' } : {}, begin);
  if (takes > 0) {
    const said = verdictOf(shot.id, takes);
    const mark = (kind: 'good' | 'bad') =>
      button(
        kind === 'good' ? 'Good' : 'Bad',
        { class: kind, 'aria-pressed': String(said === kind), 'aria-label': `${kind} take ${takes} of ${shot.title}` },
        () => tap({ kind, step: shot.id, take: takes }),
      );
    item.append(element('div', { class: 'verdict' }, mark('good'), mark('bad')));
  }
  return item;
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
    if (!/^\d{2}:\d{2}:\d{2}[:;]\d{2}$/.test(input.value))
      return say('a camera time reads hh:mm:ss:ff, such as 01:02:03:04');
    tap({ kind: 'camera', shows: input.value });
    say(`noted: the camera shows ${input.value}`);
  });
  return form;
}

let said = '';
function say(text: string): void {
  said = text;
  draw();
}

function draw(): void {
  if (!root) return;
  const typed = document.querySelector<HTMLInputElement>('#shows')?.value ?? '';
  const typing = document.activeElement?.id === 'shows';
  const on = running();
  const waiting = kept.waiting.length;
  const state =
    waiting === 0
      ? 'Everything is in the cutting room.'
      : `${waiting} ${waiting === 1 ? 'tap waits' : 'taps wait'}${away ? ' for the network' : ''}; nothing is lost.`;
  const sections = element('div', {});
  let row = element('ol', {});
  for (const shot of kept.shots) {
    if (shot.kind === 'chapter') {
      row = element('ol', {});
      sections.append(element('h2', {}, shot.title), row);
    } else {
      if (!row.isConnected && row.parentElement === null) sections.append(row);
      row.append(line(shot, on));
    }
  }
  root.replaceChildren(
    element('h1', {}, kept.title ?? 'Shoot log'),
    element('p', { role: 'status' }, said === '' ? state : `${said}. ${state}`),
    cameraForm(),
    sections,
    element(
      'div',
      { class: 'bar' },
      button('Clap', {}, () => tap({ kind: 'clap' })),
      button('Camera rests', {}, () => tap({ kind: 'rest' })),
    ),
  );
  const input = document.querySelector<HTMLInputElement>('#shows');
  if (input) input.value = typed;
  if (typing) input?.focus();
}

async function start(): Promise<void> {
  load();
  draw();
  try {
    await pair();
    await fetchList();
  } catch (error) {
    away = !(error instanceof Refused);
    if (error instanceof Refused) say(error.message);
  }
  draw();
  await send();
  setInterval(() => void send(), RETRY_MS);
  addEventListener('online', () => void send());
}

void start();

export {};
