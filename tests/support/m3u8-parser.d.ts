/** The parser's own package has no types; these are the parts of its README that tests use. */
declare module 'm3u8-parser' {
  interface Segment {
    readonly uri: string;
    readonly duration: number;
    readonly map?: { readonly uri: string };
  }
  interface Variant {
    readonly uri: string;
    readonly attributes: {
      readonly BANDWIDTH: number;
      readonly 'AVERAGE-BANDWIDTH': string;
      readonly CODECS?: string;
      readonly RESOLUTION?: { readonly width: number; readonly height: number };
    };
  }
  export class Parser {
    push(text: string): void;
    end(): void;
    readonly manifest: {
      readonly version?: number;
      readonly targetDuration: number;
      readonly playlistType?: string;
      readonly endList?: boolean;
      readonly independentSegments?: boolean;
      readonly segments: readonly Segment[];
      readonly playlists: readonly Variant[];
    };
  }
}
