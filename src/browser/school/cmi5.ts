import { readLaunch } from '../../core/school/index.ts';
import { newUuid } from '../page/new-id.ts';
import { Cmi5Session } from './cmi5-session.ts';
import { keepSchoolRecord } from './keep-school-record.ts';

const launch = readLaunch(location.search);
// Opened from a folder, the lesson is what it is everywhere.
if (launch)
  Cmi5Session.open(launch, {
    now: () => new Date(),
    newId: newUuid,
    language: document.documentElement.lang,
    request: (address, options) => fetch(address, options),
  }).then(keepSchoolRecord, () => {
    const words = document.createElement('p');
    words.className = 'school-panel';
    words.setAttribute('role', 'alert');
    words.textContent =
      'The system of your school did not take this launch, so nothing is recorded there. Start the lesson anew from there, or ask who runs it.';
    document.querySelector('main h1')?.after(words);
  });
