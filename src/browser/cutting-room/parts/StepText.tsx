/** @jsxImportSource preact */
import type { Signal } from '@preact/signals';
import { chosenOf, textOf, writeFile } from '../../../core/edit/index.ts';
import type { Store } from '../store.ts';
import { TextBox } from './TextBox.tsx';

interface Props {
  readonly store: Store;
  readonly focus: Signal<number>;
}

/** The text of the chosen chapter or step; where a finding lies outside of any, the file it lies in. */
export function StepText({ store, focus }: Props) {
  const session = store.session.value;
  const chosen = chosenOf(session);
  const pointed = store.pointed.value;
  const file = pointed?.file;
  if (file !== undefined) return <FileText key={file} store={store} file={file} focus={focus} />;
  if (!chosen) return null;
  return (
    <section class="text" aria-labelledby="text-title">
      <h2 id="text-title">
        Text <small>{chosen.title}</small>
      </h2>
      <TextBox
        store={store}
        id={chosen.id}
        titleId="text-title"
        text={textOf(session)}
        write={(words) => store.write(words)}
        pointed={pointed?.passage === chosen.id ? pointed : undefined}
        focus={focus}
        rows={8}
      />
    </section>
  );
}

function FileText({ store, file, focus }: Props & { readonly file: string }) {
  const text = (store.session.value.content.texts.get(file) ?? '').replace(/^\uFEFF/, '');
  return (
    <section class="text" aria-labelledby="text-title">
      <h2 id="text-title">
        File <small>{file}</small>{' '}
        <button type="button" onClick={() => (store.pointed.value = undefined)}>
          Back to the step
        </button>
      </h2>
      <TextBox
        store={store}
        id={`file ${file}`}
        titleId="text-title"
        text={text}
        write={(words) => store.run(writeFile(file), words, `file ${file}`)}
        pointed={store.pointed.value}
        focus={focus}
        rows={16}
      />
    </section>
  );
}
