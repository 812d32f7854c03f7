export { FAULTS, type Fault, type FaultId } from './faults.ts';
export { didYouMean, nearest } from './nearest.ts';
export { plainText } from './plain-text.ts';
export { Points } from './points.ts';
export { CONTENT_FILES, filesNamed, readShop, type ShopRead } from './read-shop.ts';
export { type PassageData, passageOf, sections } from './sections.ts';
export { slug } from './slug.ts';
export { VOCABULARY } from './vocabulary.ts';
