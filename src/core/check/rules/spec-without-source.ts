import { placeOf } from '../../model/index.ts';
import { didYouMean } from '../../read/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';

export default rule({
  id: 'spec-without-source',
  severity: 'error',
  why: 'A value that nobody can look up cannot be checked, and is not shown.',
  bad: replaceIn('specs/tarn-420.yaml', '    source: {document: manual, page: 12}\n', ''),
  says: '17:5 chain-slack has no source',
  good: SOUND,

  *machine({ machines }) {
    for (const machine of machines) {
      const documents = Object.keys(machine.written.documents ?? {});
      for (const spec of machine.specs) {
        const { source } = spec.written;
        if (!source)
          yield {
            place: placeOf(spec),
            message: `${spec.id} has no source`,
            help: 'add source: with the document it was read from, and the page',
          };
        else if (!documents.includes(source.document))
          yield {
            place: placeOf(spec, 'source', 'document'),
            message: `${spec.id} names the document "${source.document}", which the table does not list`,
            help: didYouMean(source.document, documents, 'add it under documents:, with its title, edition and date'),
          };
      }
    }
  },
});
