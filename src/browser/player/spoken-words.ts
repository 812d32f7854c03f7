/** What can be asked of the player by voice. `values` reads the values of the step aloud. */
export type SpokenCommand = 'next' | 'previous' | 'again' | 'pause' | 'play' | 'values';

/** Whole utterances, as somebody at a bench says them; the first of each is the one shown. */
const WORDS: Readonly<Record<string, Readonly<Record<SpokenCommand, readonly string[]>>>> = {
  en: {
    next: ['next', 'next step', 'go on'],
    previous: ['back', 'go back', 'previous', 'previous step'],
    again: ['again', 'once more', 'say again', 'repeat'],
    pause: ['stop', 'pause', 'wait'],
    play: ['play', 'start', 'carry on', 'continue'],
    values: ['values', 'value', 'read it', 'read the values', 'how tight', 'how much'],
  },
  es: {
    next: ['siguiente', 'siguiente paso', 'adelante'],
    previous: ['atrás', 'anterior', 'paso anterior'],
    again: ['otra vez', 'de nuevo', 'repite', 'repetir'],
    pause: ['para', 'pausa', 'espera', 'alto'],
    play: ['reproduce', 'reproducir', 'continúa', 'continuar', 'empieza'],
    values: ['valores', 'valor', 'lee', 'lee los valores', 'cuánto'],
  },
};

function bare(text: string): string {
  return text
    .normalize('NFD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^\p{L}\s]/gu, '')
    .replaceAll(/\s+/g, ' ')
    .trim();
}

function wordsOf(language: string) {
  return WORDS[language.toLowerCase().split('-')[0] ?? ''];
}

/**
 * The command that an utterance is, or nothing. Only a whole utterance counts: a teacher in the film, or a neighbour,
 * who says "next we loosen the nut" asks for nothing.
 * @param language BCP 47; of languages without words of their own nothing is a command
 */
export function spokenCommand(utterance: string, language: string): SpokenCommand | undefined {
  const said = bare(utterance);
  const found = Object.entries(wordsOf(language) ?? {}).find(([, ways]) => ways.some((way) => bare(way) === said));
  return found?.[0] as SpokenCommand | undefined;
}

/** The first word of each command, for the page to say what it listens for; empty for a language without words. */
export function commandWords(language: string): string[] {
  return Object.values(wordsOf(language) ?? {}).flatMap(([first]) => first ?? []);
}
