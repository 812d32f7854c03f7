/** @jsxImportSource preact */
import { applyFix, bodyOf, canApply, chooseById, goTo } from '../../../core/edit/index.ts';
import type { Diagnostic } from '../../../core/model/index.ts';
import { isOfTable, passageOf, sortFindings, timeOf } from '../findings.ts';
import type { Store } from '../store.ts';

/**
 * To the time and the line a diagnostic is about: in the text of its chapter or step or, where it stands outside of
 * that (in a heading, a cue, the front matter, the recording), in the file.
 *
 * @param enter to type there; otherwise the line is shown and the keys stay with the picture
 */
export function follow(store: Store, diagnostic: Diagnostic, enter: boolean): void {
  const session = store.session.peek();
  const { file, start, end } = diagnostic.place;
  const passage = passageOf(diagnostic, session);
  if (passage) store.run(chooseById, passage.id);
  const at = timeOf(diagnostic, session);
  if (at !== undefined) store.run((now) => ({ session: goTo(now, at) }));
  store.say(`${diagnostic.severity}: ${diagnostic.message}; ${file}, line ${start.line}; ${diagnostic.help}`);
  const text = (session.content.texts.get(file) ?? '').replace(/^\uFEFF/, '');
  const body = passage && bodyOf(session.view.lessonText, passage);
  const n = (store.pointed.peek()?.n ?? 0) + 1;
  if (passage && body && start.offset >= body.start && end.offset <= body.end) {
    const within = text.slice(body.start);
    const [from, to] = [
      offsetInTextBox(within, start.offset - body.start),
      offsetInTextBox(within, end.offset - body.start),
    ];
    store.pointed.value = { n, passage: passage.id, from, to, enter };
  } else if (file === session.desk.recordingFile || file === session.desk.lessonFile)
    store.pointed.value = {
      n,
      file,
      from: offsetInTextBox(text, start.offset),
      to: offsetInTextBox(text, end.offset),
      enter,
    };
}

/** Where an offset comes to lie in a text box, which counts each line end as one. */
function offsetInTextBox(text: string, offset: number): number {
  return text.slice(0, offset).replace(/\r\n/g, '\n').length;
}

/** What the check found, as one works; a press goes to the time and the line. */
export function Findings({ store }: { readonly store: Store }) {
  const all = sortFindings(store.diagnostics.value, store.session.value);
  const here = all.filter((diagnostic) => isOfTable(diagnostic, store.session.value));
  const elsewhere = all.filter((diagnostic) => !here.includes(diagnostic));
  return (
    <section class="findings" aria-labelledby="findings-title">
      <h2 id="findings-title">
        Check{' '}
        <small>
          {store.checking.value ? 'reading' : here.length === 0 ? 'no problems found' : `${here.length} to fix`}
        </small>
      </h2>
      <ol>
        {here.slice(0, 60).map((diagnostic) => (
          <li
            key={`${diagnostic.rule} ${diagnostic.place.file} ${diagnostic.place.start.offset} ${diagnostic.message}`}
          >
            <button type="button" class={diagnostic.severity} onClick={() => follow(store, diagnostic, true)}>
              <span class="kind">{diagnostic.severity}</span> {diagnostic.message}
              <span class="where">
                {diagnostic.place.file}:{diagnostic.place.start.line}
              </span>
            </button>
            <Remedy store={store} diagnostic={diagnostic} />
          </li>
        ))}
      </ol>
      {elsewhere.length > 0 && (
        <details>
          <summary>{elsewhere.length} more in other files</summary>
          <ul>
            {elsewhere.slice(0, 60).map(({ rule, severity, message, place }) => (
              <li key={`${rule} ${place.file} ${place.start.offset} ${message}`}>
                <span class="kind">{severity}</span> {message}
                <span class="where">
                  {place.file}:{place.start.line}
                </span>
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

function Remedy({ store, diagnostic: { fix, message } }: { readonly store: Store; readonly diagnostic: Diagnostic }) {
  if (!fix || !canApply(fix, store.session.value)) return null;
  return (
    <button
      type="button"
      class="remedy"
      aria-label={`${fix.title}: ${message}`}
      onClick={() => store.run(applyFix(fix, store.checkedTexts))}
    >
      {fix.title}
    </button>
  );
}
