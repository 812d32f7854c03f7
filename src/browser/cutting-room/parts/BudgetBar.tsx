/** @jsxImportSource preact */
import { printClockTime, TICKS_PER_SECOND } from '../../../core/time/index.ts';
import type { Budget } from '../check-worker.ts';
import type { Store } from '../store.ts';

const clock = (seconds: number) => printClockTime(Math.round(seconds) * TICKS_PER_SECOND);

/** What each class that shows this lesson leaves for it: a bar a chapter, with what has still to go. */
export function BudgetBar({ store }: { readonly store: Store }) {
  const lesson = store.desk.value.lessonFile?.replace(/^lessons\/|\.mdx$/g, '');
  const own = store.budgets.value.flatMap((budget) => {
    const targets = budget.trim.targets.filter((target) => target.lesson === lesson);
    return targets.length > 0 ? [{ budget, targets }] : [];
  });
  if (own.length === 0) return null;
  return (
    <section class="budget" aria-label="Time in class">
      {own.map(({ budget, targets }) => (
        <One key={budget.id} budget={budget} targets={targets} />
      ))}
    </section>
  );
}

function One({ budget, targets }: { readonly budget: Budget; readonly targets: Budget['trim']['targets'] }) {
  const total = targets.reduce((sum, { programmeSeconds }) => sum + programmeSeconds, 0);
  const lose = targets.reduce((sum, { shareSeconds }) => sum + shareSeconds, 0);
  const over = budget.trim.overSeconds > 0;
  return (
    <div class="class">
      <p>
        <strong>{budget.title}</strong>{' '}
        {over
          ? `is ${clock(budget.trim.overSeconds)} over; this lesson shows ${clock(total)} and has ${clock(lose)} to lose`
          : `fits; this lesson shows ${clock(total)}`}
      </p>
      <ul class="bars">
        {targets.map(({ block, chapter, title, programmeSeconds, shareSeconds }) => (
          <li key={`${block} ${chapter}`} style={{ flexGrow: programmeSeconds }} title={title}>
            <span class="name">{title}</span>
            <span class="lose" style={{ width: `${(100 * shareSeconds) / Math.max(1, programmeSeconds)}%` }} />
            <span class="figures">{clock(programmeSeconds)}</span>
            {shareSeconds > 0 && <span class="figures">− {clock(shareSeconds)}</span>}
          </li>
        ))}
      </ul>
    </div>
  );
}
