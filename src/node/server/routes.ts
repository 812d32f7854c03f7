import type { Route } from './route.ts';
import { analysis, analysisFile } from './routes/analysis.ts';
import { dayAfresh, dayTime, keepTrial, openDay, showClass, takeDayEvents, tryClass } from './routes/day.ts';
import events from './routes/events.ts';
import { plannedTake, takeFile, writeTake } from './routes/footage.ts';
import { jobs, startJob, stopJob } from './routes/jobs.ts';
import media from './routes/media.ts';
import open from './routes/open.ts';
import page from './routes/page.ts';
import { closePhone, openPhone, phones, shootLog, takeTaps } from './routes/phone.ts';
import { exported, programme, programmeFile } from './routes/programme.ts';
import save from './routes/save.ts';

/** Every address below `/cutting-room/`. The page comes last, because it takes whatever is left. */
export const ROUTES: readonly Route[] = [
  open,
  save,
  events,
  media,
  takeFile,
  plannedTake,
  writeTake,
  jobs,
  startJob,
  stopJob,
  programme,
  programmeFile,
  exported,
  analysis,
  analysisFile,
  openPhone,
  closePhone,
  phones,
  shootLog,
  takeTaps,
  openDay,
  dayTime,
  takeDayEvents,
  dayAfresh,
  showClass,
  tryClass,
  keepTrial,
  page,
];
