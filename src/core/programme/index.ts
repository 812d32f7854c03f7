export {
  filePosition,
  type PlayFile,
  type PlayPiece,
  type PlayPlan,
  type PlayPlanJson,
  pieceAt,
  planFromJson,
  planToJson,
  playLength,
  playPieces,
  programmeMoment,
} from './play-plan.ts';
