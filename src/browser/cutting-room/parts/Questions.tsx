/** @jsxImportSource preact */
import {
  answerQuestion,
  chooseById,
  dismissQuestion,
  type OpenQuestion,
  openQuestions,
} from '../../../core/edit/index.ts';
import type { Store } from '../store.ts';

/** What was asked in a class about this lesson and set aside: proposals, none of which changes anything by itself. */
export function Questions({ store }: { readonly store: Store }) {
  const session = store.session.value;
  const open = openQuestions(session);
  if (open.length === 0) return null;
  return (
    <section class="asked" aria-labelledby="asked-title">
      <h2 id="asked-title">
        Asked in class <small>{open.length} not answered</small>
      </h2>
      <ol>
        {open.map((question) => (
          <Question key={`${question.file} ${question.index}`} store={store} question={question} />
        ))}
      </ol>
    </section>
  );
}

function Question({ store, question }: { readonly store: Store; readonly question: OpenQuestion }) {
  const { words, date, step } = question;
  const passage = store.session.value.view.passages.find(({ id }) => id === step);
  const answer = (event: Event) => {
    event.preventDefault();
    const field = (event.currentTarget as HTMLFormElement).elements.namedItem('answer') as HTMLInputElement;
    if (store.run(answerQuestion(question), field.value)) field.value = '';
  };
  return (
    <li>
      <p>
        {words}{' '}
        {passage ? (
          <button type="button" onClick={() => store.run(chooseById, passage.id)}>
            {passage.title}
          </button>
        ) : (
          <small>no step of its own: it goes into the chosen one</small>
        )}{' '}
        <small>{date}</small>
      </p>
      <form onSubmit={answer}>
        <input name="answer" aria-label={`Answer to: ${words}`} autocomplete="off" placeholder="Answer" />
        <button type="submit">Put into the step</button>
        <button
          type="button"
          onClick={() => store.run(dismissQuestion(question))}
          aria-label={`Needs nothing: ${words}`}
        >
          Needs nothing
        </button>
      </form>
    </li>
  );
}
