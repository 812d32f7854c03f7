/** What can be heard between the steps, far from the microphone, by recording and number of the idle scene, from 0. */
export const ASIDES: Readonly<Record<string, Readonly<Record<number, string>>>> = {
  chain: {
    0: 'Is it running? There is a red light.',
    2: 'Who parks like that? I will be right back.',
    4: 'Can you move the lamp? A bit more. Good.',
    7: 'Has anyone seen the card with the bolts?',
    10: 'I think the soup is boiling over.',
    13: 'Are we still recording?',
  },
  'front-brake': {
    0: 'Is that straight? It looks crooked.',
    2: 'Delivery. Sign here, please.',
    5: 'Where is the bucket?',
    8: 'Lunch.',
  },
};

/** What is said when a wrench has fallen. */
export const DROPPED = 'Nobody hurt. That one stays on the floor until I have finished this sentence. Ready?';
