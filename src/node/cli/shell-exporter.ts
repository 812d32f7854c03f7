import type { Context, ExitCode, Flags } from './command.ts';

/** A format that text alone cannot make, such as a PDF: what it is of, and who writes it. */
export interface ShellExporter {
  /** As written after `--to`. */
  readonly id: string;
  readonly title: string;
  readonly extension: string;
  readonly of: 'lesson' | 'recording' | 'class' | 'machine';
  /**
   * @param subject id of the lesson, recording, class or machine
   * @param file absolute path to write to
   */
  run(subject: string, file: string, context: Context, flags: Flags): Promise<ExitCode>;
}
