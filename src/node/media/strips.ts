import type { JobInput } from '../../core/media/index.ts';

/** Whole groups of pictures of a file, to be put into a piece of the programme. */
export interface Strip {
  /** Which of the files given beside. */
  readonly file: number;
  /** Frames on the file's own grid; the whole file where `whole`. */
  readonly first: number;
  readonly count: number;
  /** Frames from the grid to the file's first picture, less than one. */
  readonly lead: number;
  readonly whole: boolean;
}

/** What all pieces of a programme have in common, as plain data. */
export interface PieceForm {
  readonly rate: { readonly numerator: number; readonly denominator: number };
  readonly width: number;
  readonly height: number;
  readonly rotation: 0 | 90 | 180 | 270;
  /** Decoder configuration with the parameter sets of all files, in hexadecimal digits. */
  readonly configuration: string;
}

/** How coded pictures of several files come to be pieces of the programme, as plain data. */
export interface Assembly {
  readonly inputs: readonly JobInput[];
  /** Strips of each piece, in order; `file` counts in `inputs`. */
  readonly pieces: readonly (readonly Strip[])[];
  readonly form: Omit<PieceForm, 'configuration'>;
}

/** Pieces of the programme's picture, to be shown one after the other. */
export interface Assembled {
  readonly files: readonly { readonly path: string; readonly frames: number }[];
  /** Pictures that a decoder has to hold back. */
  readonly depth: number;
}
