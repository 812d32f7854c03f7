export type { Body, ElementNode } from './body.ts';
export { CARD_CORNERS, type CardCorner } from './card-corner.ts';
export { classStart } from './class-start.ts';
export type { Diagnostic, Fix, Severity } from './diagnostic.ts';
export { fingerprint, sameFingerprint, thumbprintText } from './fingerprint.ts';
export { encodePath, outsideReason } from './inside.ts';
export { MARKDOWN_TAGS, PLAIN_HTML, plainElement } from './markup.ts';
export { type Origin, type Place, type Point, placeOf, type Read, startOf } from './place.ts';
export { PLACEHOLDER } from './placeholder.ts';
export { partOfRow } from './row-parts.ts';
export { actualSchema } from './schema/actual.ts';
export { classSchema } from './schema/class.ts';
export { type CollectionManifest, collectionSchema, collectionsSchema } from './schema/collections.ts';
export { type AmountWritten, id as idSchema } from './schema/common.ts';
export { correctionsSchema } from './schema/corrections.ts';
export { kitSchema } from './schema/kit.ts';
export { lessonSchema } from './schema/lesson.ts';
export { questionsSchema } from './schema/questions.ts';
export { recordingSchema } from './schema/recording.ts';
export { shopSchema } from './schema/shop.ts';
export { type SpecRowWritten, specsSchema } from './schema/specs.ts';
export { wordsSchema } from './schema/words.ts';
export {
  type Actual,
  type Angle,
  type CameraFile,
  type Caption,
  type CaptionFile,
  type Chapter,
  type Cite,
  type ClassQuestions,
  type Collections,
  type Correction,
  type Cue,
  type Discussion,
  type FileFacts,
  type FormerValue,
  type KeyPoint,
  type Kit,
  type KitGroup,
  type Lesson,
  type LessonParts,
  type Machine,
  type MediaFacts,
  type Passage,
  type Prose,
  type Recording,
  type SharedCollection,
  type Shop,
  type ShopClass,
  type ShopInfo,
  type Shot,
  SIGNAL_WORDS,
  type SignalBox,
  type SignalWord,
  type Spec,
  type Step,
  type Translation,
  type Use,
  type Utterance,
  type Words,
  type WrittenEntry,
} from './shop.ts';
export { type AttributeKind, type ElementName, elementNamed, VOCABULARY, type VocabularyRow } from './vocabulary.ts';
