import { chooseById, goTo } from '../../../core/edit/index.ts';
import type { Diagnostic } from '../../../core/model/index.ts';
import { ordered, passageOf, timeOf } from '../findings.ts';
import type { Store } from '../store.ts';

/** To the time and the line a diagnostic is about. */
export function follow(store: Store, diagnostic: Diagnostic): void {
  const session = store.session.peek();
  const passage = passageOf(diagnostic, session);
  if (passage) store.run(chooseById, passage.id);
  const at = timeOf(diagnostic, session);
  if (at !== undefined) store.run((now) => ({ session: goTo(now, at) }));
  const { file, start } = diagnostic.place;
  store.say(`${diagnostic.severity}: ${diagnostic.message}; ${file}, line ${start.line}; ${diagnostic.help}`);
  if (!passage) return;
  const field = document.querySelector<HTMLTextAreaElement>('.text textarea');
  const line = session.view.lessonText.slice(0, start.offset).split('\n').length;
  const first = field?.value.split('\n')[0] ?? '';
  const bodyAt = session.view.lessonText.indexOf(first, passage.heading.end);
  const into = start.offset - bodyAt;
  if (field && first !== '' && bodyAt !== -1 && into >= 0 && into <= field.value.length && line > 0) {
    field.setSelectionRange(into, Math.min(field.value.length, diagnostic.place.end.offset - bodyAt));
  }
}

/** What the check found, as one works; a press goes to the time and the line. */
export function Findings({ store }: { readonly store: Store }) {
  const all = ordered(store.diagnostics.value, store.session.value);
  const here = all.filter(({ place }) => {
    const { recordingFile, lessonFile } = store.desk.value;
    return place.file === recordingFile || place.file === lessonFile;
  });
  const elsewhere = all.length - here.length;
  return (
    <section class="findings" aria-labelledby="findings-title">
      <h2 id="findings-title">
        Check{' '}
        <small>
          {store.checking.value ? 'reading' : here.length === 0 ? 'nothing to mend' : `${here.length} to mend`}
        </small>
      </h2>
      <ol>
        {here.slice(0, 60).map((diagnostic) => (
          <li
            key={`${diagnostic.rule} ${diagnostic.place.file} ${diagnostic.place.start.offset} ${diagnostic.message}`}
          >
            <button type="button" class={diagnostic.severity} onClick={() => follow(store, diagnostic)}>
              <span class="kind">{diagnostic.severity}</span> {diagnostic.message}
              <span class="where">
                {diagnostic.place.file}:{diagnostic.place.start.line}
              </span>
            </button>
          </li>
        ))}
      </ol>
      {elsewhere > 0 && <p class="hint">{elsewhere} more in files that are not on the table.</p>}
    </section>
  );
}
