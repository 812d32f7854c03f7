import { findQuantities } from '../../src/core/heard/index.ts';
import { isSameAmount } from './heard-grid.ts';
import { UNIT_FORMS, type UnitForm } from './heard-units.ts';

/**
 * How a limit is spoken: before its amount, behind it, by what is good, or by what is thrown away. All invented, by the
 * grammar of English and not by any sentence.
 */

/** The most there may be. */
const MOST = `Not over {}.|Never over {}.|Don't go over {}.|Don't go past {}.|Do not go beyond {}.|Stay under {}.|Stay below {}.
You don't want more than {}.|It shouldn't be more than {}.|It mustn't be above {}.|It can't go above {}.|It must never exceed {}.
You're allowed {}.|They allow {}.|The book allows {}.|{} and no more.|{} is the most you want.|{} is the limit.|{} is your max.
The most I'd go to is {}.|I never go above {}.|I wouldn't go past {}.|I won't go higher than {}.|Nothing more than {}.
Anything over {} is scrap.|Anything over {} and I bin it.|If it's over {}, bin it.|If it's more than {}, replace it.
Over {} and it's done.|More than {} and it's had it.|Past {} it goes in the bin.|Once it's past {}, change it.|Once it gets over {}, change it.
Reject it over {}.|Scrap it above {}.|It should be less than {}.|It has to be under {}.|It must be below {}.|It needs to be under {}.
It's got to be under {}.|You want it under {}.|You want to be below {}.|It wants to be less than {}.|Make sure it's under {}.
See that it stays below {}.|Up to {} is fine.|Anything below {} is fine.|Anything under {} will do.|Max {}.|The max is {}.|The book's max is {}.
The upper limit is {}.|It's good up to {}.|It is not to exceed {}.|Cap it at {}.|No higher than {}.|{} or under.|{} or below.
{} and below.|{} maximum.|{} at the outside.|{} at the most.|{} at most.|{} tops.|{}, maximum.|{}, that's your max.|{}, and that's the limit.
Keep below {}.|Keep it below {}.|Keep it inside {}.|Hold it to within {}.|If you see more than {}, stop.|If it reads over {}, something's wrong.
Past {} you're asking for trouble.|No more than {}.|Not more than {}.|You never want to see over {}.|It shouldn't go over {}.
It isn't allowed over {}.|It's limited to {}.|You can go up to {}.|You can have up to {}.|As much as {}.|{} being the limit.
{}, no higher.|{} is plenty, no more than that.|Go over {} and you'll regret it.|Go past {} and it breaks.|Above {} it's no good.
Above {} we replace it.|Above {} it's not safe.|You want less than {}.|Less than {} is good.|Under {} is fine.|Below {} and you're fine.`;
/** The least. */
const LEAST = `Not under {}.|Never under {}.|Don't go under {}.|Don't go below {}.|Stay over {}.|Stay above {}.|You don't want less than {}.
It shouldn't be less than {}.|It mustn't be below {}.|It can't go below {}.|It must never drop below {}.|{} and no less.|{} is the least you want.
{} is the minimum.|{} is your minimum.|The least I'd go to is {}.|I never go below {}.|I wouldn't go under {}.|I won't go lower than {}.
Nothing less than {}.|Anything under {} is scrap.|Anything under {} and I bin it.|If it's under {}, bin it.|If it's less than {}, replace it.
Under {} and it's done.|Less than {} and it's had it.|Below {} it goes in the bin.|Once it's below {}, change it.|Once it gets under {}, change it.
Reject it under {}.|Scrap it below {}.|It should be more than {}.|It has to be over {}.|It must be above {}.|It needs to be over {}.
It's got to be over {}.|You want it over {}.|You want to be above {}.|It wants to be more than {}.|Make sure it's over {}.
See that it stays above {}.|Anything above {} is fine.|Anything over {} will do.|Min {}.|The minimum is {}.|The book's minimum is {}.
The lower limit is {}.|No lower than {}.|{} or over.|{} or above.|{} and above.|{} and up.|{} minimum.|{} at the least.|{} at least.|{}, minimum.
{}, that's your minimum.|Keep above {}.|Keep it above {}.|If you see less than {}, stop.|If it reads under {}, something's wrong.
Below {} you're asking for trouble.|No less than {}.|Not less than {}.|You never want to see under {}.|It shouldn't go under {}.
You need at least {}.|At least {}.|You want a minimum of {}.|As little as {}.|{}, no lower.|Go under {} and you'll regret it.|Below {} it's no good.
Below {} we replace it.|Below {} it's not safe.|You want more than {}.|More than {} is good.|Over {} is fine.|Above {} and you're fine.
It needs a good {}, minimum.|Upwards of {}.|From {} up.|{} or better.`;
/** What only happened or is nearly so much is no limit. */
const NEITHER = `Mine was just under {}.|It came up to {}.|It got down to {}.|It drops to {}.|I got it down to {}.|It's down to {}.|Just over {}.
It's a bit over {}.|A touch under {}.|It went up to {}.|Bring it up to {}.|Back it down to {}.|Take it up to {}.|It's at {} now.|It settles at {}.
It crept up to {}.|It's sitting just below {}.|A hair under {}.|Slightly more than {}.`;

type Side = 'min' | 'max' | undefined;
const rows = (text: string, side: Side) => text.split(/[|\n]/).map((says) => ({ says, side }));
const FRAMES = [...rows(MOST, 'max'), ...rows(LEAST, 'min'), ...rows(NEITHER, undefined)];

const AMOUNTS: readonly (readonly [string, number])[] = [
  ['forty', 40],
  ['one point two', 1.2],
  ['twelve', 12],
  ['0.8', 0.8],
  ['a hundred and ten', 110],
];
/** No talk of these is told by what wears. */
const OF = new Set('N·m lbf·ft psi bar mm in thou mL L g kg °C °F ° V A mA Ω MΩ rpm % W HRC kgf'.split(' '));
const NAMES = UNIT_FORMS.filter(
  ({ symbol, many }, at, all) =>
    OF.has(symbol) && all.findIndex((each) => each.symbol === symbol) === at && many !== '',
);

interface Limit {
  readonly text: string;
  readonly says: string;
  readonly side: Side;
  readonly value: number;
  readonly unit: UnitForm;
}

/** Every limit of every amount; with a step, every so many of them. */
export function* limits(step = 1): Generator<Limit> {
  let at = 0;
  for (const { says, side } of FRAMES)
    for (const of of NAMES)
      for (const [spoken, value] of AMOUNTS) {
        if (value < of.least || value > of.most) continue;
        if (at++ % step > 0) continue;
        const text = says.replace('{}', `${spoken} ${of.many}`).replace(/^[a-z]/, (first) => first.toUpperCase());
        yield { text, says, side, value, unit: of };
      }
}

/** True where the limit is heard with its side, and nothing else. */
export function isLimitHeard({ text, side, value, unit }: Limit): boolean {
  const [only, ...more] = findQuantities(text);
  if (!only || more.length > 0) return false;
  return isSameAmount(only, unit, side === 'max' ? undefined : value, side === 'min' ? undefined : value);
}
