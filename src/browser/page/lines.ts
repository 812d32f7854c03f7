/** The lines that each piece of an answer completes, as it arrives; a piece may complete none. */
export async function* linesOf(body: ReadableStream<Uint8Array<ArrayBuffer>>): AsyncGenerator<readonly string[]> {
  const reader = body.getReader();
  const decoder = new TextDecoder();
  let rest = '';
  for (let part = await reader.read(); !part.done; part = await reader.read()) {
    const lines = (rest + decoder.decode(part.value, { stream: true })).split('\n');
    rest = lines.pop() ?? '';
    yield lines.filter((line) => line !== '');
  }
}
