import { newId } from '../page/new-id.ts';
import type { LeadView } from '../present/lead-view.ts';
import { button, element } from '../shoot-log/element.ts';
import { follow, letIn, say } from './link.ts';

const root = document.querySelector('#day');
let shown: LeadView | undefined;
let there = false;
let refused = false;
let said = '';

/**
 * A press goes once, and at once: one that did not arrive is said, and never sent later by itself, when it would mean
 * something else.
 */
async function press(does: string, words: string): Promise<void> {
  said = '';
  const arrived = await say('/press/', { id: newId(), does });
  said = arrived ? '' : `“${words}” did not arrive. Press again.`;
  draw();
}

const key = (does: string, words: string, attributes: Record<string, string> = {}) =>
  button(words, { 'data-does': does, ...attributes }, () => void press(does, words));
const line = (text: string, name = '') => (text === '' ? [] : [element('p', name === '' ? {} : { class: name }, text)]);

function draw(): void {
  if (!root) return;
  const focused = document.activeElement?.getAttribute('data-does');
  const link = refused
    ? 'No longer connected. Ask for a new code.'
    : there
      ? said
      : 'The machine that leads the class does not answer; trying again.';
  root.replaceChildren(
    element('p', { role: 'status', class: link === '' ? 'link' : 'link off' }, link),
    ...(shown ? view(shown) : [element('h1', {}, 'Waiting for the class')]),
  );
  if (focused) root.querySelector<HTMLElement>(`[data-does="${focused}"]`)?.focus();
}

function view(now: LeadView): HTMLElement[] {
  const on = now.phase === 'on';
  return [
    element('p', { class: now.late ? 'clock late' : 'clock' }, now.clock, ' ', element('span', {}, now.behind)),
    element('h1', {}, now.title),
    ...line(now.left, 'left'),
    ...line(now.ends),
    ...line(now.note, 'note'),
    ...(on
      ? [
          element('div', { class: 'keys main' }, key('back', 'Back'), key('next', 'Next block')),
          ...line(now.step, 'step'),
          element(
            'div',
            { class: 'keys' },
            key('toggle', now.playing ? 'Pause' : 'Play'),
            key('again', 'Again'),
            key('slower', 'Slower'),
            key('faster', 'Faster'),
            key('dark', now.dark ? 'Screen on' : 'Screen dark'),
          ),
        ]
      : []),
    ...(now.keyPoints.length > 0
      ? [element('ul', { class: 'points' }, ...now.keyPoints.map((point) => element('li', {}, point)))]
      : []),
    ...line(now.next === '' ? '' : `Next: ${now.next}`, 'next'),
    ...line(now.kit === '' ? '' : `Lay out: ${now.kit}`),
    ...(now.ways.length > 0 && on
      ? [
          element('h2', {}, 'Ways out'),
          ...now.ways.map(({ text, outcome, asks }, place) =>
            key(`way-${place + 1}`, [`${place + 1}  ${text}`, outcome, asks].filter(Boolean).join('; '), {
              class: 'way',
            }),
          ),
        ]
      : []),
    ...(now.undo === '' ? [] : [key('undo', `Undo: ${now.undo}`, { class: 'way' })]),
    element('h2', {}, 'Who came'),
    element(
      'div',
      { class: 'keys people' },
      key('one-fewer', '−', { 'aria-label': 'One fewer' }),
      element('output', { 'aria-label': 'Who came' }, now.attendance),
      key('one-more', '+', { 'aria-label': 'One more' }),
    ),
    ...(now.questions.length > 0
      ? [
          element('h2', {}, 'Questions set aside'),
          element('ul', {}, ...now.questions.map((words) => element('li', {}, words))),
        ]
      : []),
  ];
}

async function start(): Promise<void> {
  const problem = await letIn();
  if (problem !== undefined) {
    root?.replaceChildren(element('h1', {}, 'Class day'), element('p', { role: 'alert' }, problem));
    return;
  }
  draw();
  void follow<{ lead: LeadView }>(
    ({ lead }) => {
      shown = lead;
      draw();
    },
    (is, out) => {
      there = is;
      refused = out;
      draw();
    },
  );
}

void start();
