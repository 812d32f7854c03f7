/** @jsxImportSource preact */

/** What files come to as a recording, as the local server worked it out. */
export interface TakeFound {
  readonly plan?: {
    readonly files: readonly { readonly file: string; readonly start?: string }[];
    readonly rate?: string;
    readonly start?: string;
    readonly angles: readonly { readonly id: string; readonly file: string; readonly sound: boolean }[];
    readonly notes: readonly string[];
  };
  readonly captions?: string;
  readonly unusable: readonly { readonly file: string; readonly problem: string; readonly help: string }[];
}

/** Behind the folder of the recording: files of one name off two cards are told apart. */
const nameOf = (file: string) => file.replace(/^media\/[^/]*\//, '');

/** One look before anything is written: what is the recording, what ran beside it, what is of no use. */
export function TakeLook({
  found,
  leaveOut,
  write,
}: {
  readonly found: TakeFound;
  leaveOut(file: string): void;
  write(): void;
}) {
  const { plan, captions, unusable } = found;
  const rows = plan
    ? [
        ...plan.files.map(({ file, start }, i) => ({ file, part: `first camera, part ${i + 1}`, start: start ?? '' })),
        ...plan.angles.map(({ id, file, sound }) => ({ file, part: sound ? `sound: ${id}` : id, start: '' })),
        ...(captions === undefined ? [] : [{ file: captions, part: 'captions', start: '' }]),
      ]
    : [];
  return (
    <div class="take-look">
      {plan ? (
        <>
          <table>
            <thead>
              <tr>
                <th scope="col">Part</th>
                <th scope="col">File</th>
                <th scope="col">Begins at</th>
                <th scope="col" />
              </tr>
            </thead>
            <tbody>
              {rows.map(({ file, part, start }, i) => (
                <tr key={file}>
                  <td>{part}</td>
                  <td>{nameOf(file)}</td>
                  <td>{i === 0 ? (plan.start ?? '') : start}</td>
                  <td>
                    <button type="button" onClick={() => leaveOut(file)} aria-label={`Leave out ${nameOf(file)}`}>
                      Leave out
                    </button>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
          <ul class="notes">
            {plan.rate !== undefined && <li>{plan.rate} pictures a second</li>}
            {plan.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </>
      ) : (
        <p>None of these files has a picture that can be read.</p>
      )}
      {unusable.map(({ file, problem, help }) => (
        <p key={file} class="trouble">
          {nameOf(file)}: {problem}; {help}
        </p>
      ))}
      {plan && (
        <button type="button" class="chief" onClick={write}>
          Write the recording and open it
        </button>
      )}
    </div>
  );
}
