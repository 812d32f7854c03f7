import { clockOf } from '../../core/day/index.ts';
import type { DayStore } from './day-store.ts';
import { behindWords, endsWords, stretch } from './words.ts';

/** What a helper's phone shows: words only, made by the window of the one who leads. */
export interface LeadView {
  readonly clock: string;
  readonly phase: 'before' | 'on' | 'over';
  readonly title: string;
  readonly left: string;
  readonly behind: string;
  readonly ends: string;
  readonly late: boolean;
  readonly note: string;
  readonly next: string;
  readonly kit: string;
  readonly step: string;
  readonly keyPoints: readonly string[];
  readonly playing: boolean;
  readonly dark: boolean;
  readonly ways: readonly { readonly text: string; readonly outcome: string; readonly asks: string }[];
  /** The change of plan that can be undone. */
  readonly undo: string;
  readonly attendance: string;
  readonly questions: readonly string[];
}

/** The class as the one who leads it sees it, in words. */
export function leadView(store: DayStore): LeadView {
  const { sheet } = store;
  const state = store.state.value;
  const outlook = store.outlook.value;
  const block = sheet.shopClass.blocks.find(({ id }) => id === state.now);
  const own = sheet.blocks.find(({ id }) => id === state.now);
  const next = sheet.shopClass.blocks.find(({ id }) => id === outlook.next);
  const starts = outlook.next === undefined ? undefined : outlook.starts[outlook.next];
  const kit = sheet.blocks.find(({ id }) => id === outlook.next)?.kit[state.given[outlook.next ?? ''] ?? ''] ?? [];
  const left = store.left;
  const clip = store.shown;
  const on = state.phase === 'on';
  return {
    clock: clockOf(sheet, store.at.value ?? 0),
    phase: state.phase,
    title: on ? (block?.title ?? '') : state.phase === 'over' ? 'The class is over' : sheet.shopClass.title,
    left: left === null ? '' : left < 0 ? `${stretch(-left)} over its time` : `${stretch(left)} left`,
    behind: on ? behindWords(outlook.behind) : '',
    ends: on ? endsWords(`about ${clockOf(sheet, outlook.end.expected)}`, outlook.chance) : '',
    late: on && outlook.off === 'late',
    note: [own?.who, own?.bay, own?.note].filter(Boolean).join(' · '),
    next: next && starts !== undefined ? `${clockOf(sheet, starts)} ${next.title}` : '',
    kit: kit.map(({ title, count }) => (count > 1 ? `${count} × ${title}` : title)).join(', '),
    step: clip ? `${clip.number} ${clip.title}` : '',
    keyPoints: clip?.keyPoints.map(({ text, why }) => (why === undefined ? text : `${text} (${why})`)) ?? [],
    playing: state.screen.playing,
    dark: state.screen.dark,
    ways: store.ways.value.map(({ text, end, chance, asks }, place) => ({
      text,
      outcome: endsWords(clockOf(sheet, end), chance),
      asks: asks === undefined ? '' : `${store.asked.value === place ? 'Press again' : 'Asks first'}: ${asks}`,
    })),
    undo: state.changed.at(-1)?.text ?? '',
    attendance: state.attendance === undefined ? 'not counted' : String(state.attendance),
    questions: state.questions.filter(({ answered }) => !answered).map(({ words }) => words),
  };
}
