import { button, element } from './element.ts';
import type { PhoneState, Shot, Tap } from './taps.ts';

/** What a tap says beside its id, lesson and time. */
export type Said = Pick<Tap, 'kind'> & Partial<Pick<Tap, 'step' | 'take' | 'shows'>>;

/** The shot list of the lesson, its takes so far, and what can be tapped. */
export function shotList({ shots, taps, lesson }: PhoneState, tap: (said: Said) => void): HTMLElement {
  const own = taps.filter((each) => each.lesson === lesson);
  const last = own.filter(({ kind }) => kind === 'begin' || kind === 'rest').at(-1);
  const running = last?.kind === 'begin' ? last.step : undefined;
  const sections = element('div', {});
  let row: HTMLElement | undefined;
  for (const shot of shots) {
    if (shot.kind === 'chapter' || !row) {
      row = element('ol', {});
      if (shot.kind === 'chapter') sections.append(element('h2', {}, shot.title));
      sections.append(row);
    }
    if (shot.kind === 'step') row.append(line(shot, own, running === shot.id, tap));
  }
  return sections;
}

function line(shot: Shot, taps: readonly Tap[], here: boolean, tap: (said: Said) => void): HTMLElement {
  const takes = taps.filter((t) => t.kind === 'begin' && t.step === shot.id).length;
  const words = takes === 0 ? 'not shot yet' : `take ${takes}${here ? ', running' : ''}`;
  const begin = button(
    shot.title,
    { class: 'begin', 'data-step': shot.id },
    () => tap({ kind: 'begin', step: shot.id, take: takes + 1 }),
    element('span', { class: 'take' }, words),
  );
  const item = element('li', here ? { class: 'on' } : {}, begin);
  if (takes === 0) return item;
  const judged = taps.findLast(
    (t) => (t.kind === 'good' || t.kind === 'bad') && t.step === shot.id && t.take === takes,
  );
  const mark = (kind: 'good' | 'bad') =>
    button(
      kind === 'good' ? 'Good' : 'Bad',
      {
        class: kind,
        'aria-pressed': String(judged?.kind === kind),
        'aria-label': `${kind} take ${takes} of ${shot.title}`,
      },
      () => tap({ kind, step: shot.id, take: takes }),
    );
  item.append(element('div', { class: 'verdict' }, mark('good'), mark('bad')));
  return item;
}
