/** A title has no more words than this: it stands in a narrow list and is read at arm's length. */
const MOST_WORDS = 7;
const FEWEST_WORDS = 2;

/** Words that open a sentence without saying what is done. (Common speech, no source.) */
const OPENERS =
  /^(?:o\.?k(?:ay)?|all right|alright|right then|right|so|now then|now|and then|and|well|then|next up|next|first of all|first|second|third|after that|finally|lastly|last|good|great|um+|uh+|er+|please|here|once more|again|before that|with that done|that done)\b[\s,:–-]*/iu;
/** Who does it, and that it is going to be done. */
const DOERS =
  /^(?:(?:what )?(?:we|i|you)(?:['’](?:ll|re|ve|m|d))?(?: (?:will|can|have to|need to|want to|should|must|are going to|am going to|going to|now|just|then|do is))*|let['’]s|let us|it['’]s time to|time to|the (?:next|first|last) (?:thing|step|job)(?: (?:we|i|you) do)? is(?: to)?)\s+/iu;
/** What cannot end a title, and what else cannot where the words go on beyond it. */
const OPEN_ENDED = /\s+(?:a|an|the|my|your|our|its|of|and|or|but)$/iu;
const DANGLING =
  /\s+(?:a|an|the|this|that|these|those|my|your|our|its|of|to|in|on|at|by|for|with|from|into|onto|over|under|up to|and|or|but|so|as|than|until|while|when|before|after|which|who|it|is|are|i|we|you|how|what)$/iu;

/**
 * A title made of the first words of what is said: without what only opens a sentence, up to where the thought ends.
 * In a language other than English the words stand as they were said.
 *
 * @returns nothing where too little was said to be a title
 */
export function titleFromSpeech(words: string): string | undefined {
  for (const sentence of words.split(/(?<=[.!?…])\s+/u)) {
    const title = titleOf(sentence);
    if (title) return title;
  }
  return undefined;
}

function titleOf(sentence: string): string | undefined {
  const asked = sentence.trimEnd().endsWith('?');
  let text = sentence.replaceAll(/[.!?…]+$/gu, '').trim();
  for (let before = ''; before !== text; ) {
    before = text;
    text = text.replace(OPENERS, '');
    // A question turned about would say something else.
    if (!asked) text = text.replace(DOERS, '');
  }
  const [thought = ''] = text.split(/[,;:–—]|\s+(?:so that|because|before (?:we|i|you)|and then|until)\s/u);
  const all = thought.trim().split(/\s+/u);
  const ending = all.length > MOST_WORDS ? DANGLING : OPEN_ENDED;
  let title = all.slice(0, MOST_WORDS).join(' ');
  for (let before = ''; before !== title; ) {
    before = title;
    title = title.replace(ending, '');
  }
  if (title.split(' ').length < FEWEST_WORDS) return undefined;
  return title.charAt(0).toUpperCase() + title.slice(1);
}
