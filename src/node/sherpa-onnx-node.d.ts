// The library has no types of its own; here is what of it is used.
declare module 'sherpa-onnx-node' {
  export interface VadConfig {
    readonly sileroVad: {
      readonly model: string;
      readonly threshold: number;
      readonly minSpeechDuration: number;
      readonly minSilenceDuration: number;
      readonly maxSpeechDuration: number;
      readonly windowSize: number;
    };
    readonly sampleRate: number;
    readonly numThreads: number;
    readonly debug: 0 | 1;
  }
  class Vad {
    /** @param bufferSeconds sound that it remembers, s */
    constructor(config: VadConfig, bufferSeconds: number);
    acceptWaveform(samples: Float32Array): void;
    isEmpty(): boolean;
    front(externalBuffer: boolean): { readonly start: number; readonly samples: Float32Array };
    pop(): void;
    flush(): void;
  }
  const library: { readonly version: string; readonly Vad: typeof Vad };
  export default library;
}
