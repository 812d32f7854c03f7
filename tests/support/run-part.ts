import { execa } from 'execa';

/** Calls `onQuiet` once nothing was heard for a while; whatever is heard before starts the wait anew. */
export class QuietWatch {
  readonly #quiet: number;
  readonly #onQuiet: () => void;
  #timer: NodeJS.Timeout | undefined;

  /** @param quiet ms */
  constructor(quiet: number, onQuiet: () => void) {
    this.#quiet = quiet;
    this.#onQuiet = onQuiet;
    this.heard();
  }

  heard(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(this.#onQuiet, this.#quiet);
  }

  stop(): void {
    clearTimeout(this.#timer);
  }
}

export interface Part {
  readonly tool: string;
  readonly args: readonly string[];
  readonly env?: Readonly<Record<string, string>>;
  /** ms without a line printed and without a test ended, after which the part is taken to hang */
  readonly quiet: number;
}

/**
 * Runs one of the project's own tools and shows what it prints. It may take as long as it likes while it goes on:
 * only one that prints nothing and ends no test (`tests/support/test-ended.ts` sends a message for each) is ended.
 *
 * @returns whether it ended well, and whether it was ended because it had gone quiet
 */
export async function runPart({ tool, args, env = {}, quiet }: Part): Promise<{ well: boolean; hung: boolean }> {
  let hung = false;
  const colour = process.stdout.isTTY ? { FORCE_COLOR: '1' } : {};
  const running = execa(tool, args, {
    preferLocal: true,
    stdin: 'ignore',
    stdout: ['inherit', 'pipe'],
    stderr: ['inherit', 'pipe'],
    buffer: false,
    ipc: true,
    reject: false,
    env: { ...colour, ...env },
  });
  const watch = new QuietWatch(quiet, () => {
    hung = true;
    running.kill();
  });
  const heard = () => watch.heard();
  running.stdout.on('data', heard);
  running.stderr.on('data', heard);
  const messages = async () => {
    for await (const _ of running.getEachMessage()) heard();
  };
  // A tool that ends is no fault of the listening.
  void messages().catch(() => {});
  const { exitCode } = await running;
  watch.stop();
  return { well: exitCode === 0 && !hung, hung };
}
