export { dateTag, directionOf, ENGLISH, type LanguageOfPage, type Locale, type Messages, ownName } from './locale.ts';
export { decimalSign, inFigures } from './numbers.ts';
export { cutAtPlaces, english, placesIn, type Wording, wording } from './translate.ts';
