/** Scans of any content that a scan can have, for laws. */
import fc from 'fast-check';
import { qualities, type Raw, type Scan, type ScanValue } from '../../server/weld/scan.ts';

const plain = <T>(model: { [K in keyof T]: fc.Arbitrary<T[K]> }): fc.Arbitrary<T> =>
  fc.record<T>(model, { noNullPrototype: true });
const integer = fc.oneof(fc.integer(), fc.integer({ min: -(2 ** 52), max: 2 ** 52 }));
const natural = fc.oneof(fc.nat(), fc.integer({ min: 0, max: 2 ** 52 }));

const said = fc.oneof(fc.constant('7FFF'), fc.string({ unit: 'binary', minLength: 1 }), fc.constant('#1'));

const raw: fc.Arbitrary<Raw> = fc.oneof(
  plain({ form: fc.constant('voltage'), deciMicrovolts: integer, coldJunction: integer }) as fc.Arbitrary<Raw>,
  plain({ form: fc.constant('temperature'), reported: integer }) as fc.Arbitrary<Raw>,
  plain({
    form: fc.constant('text'),
    text: fc.oneof(fc.string({ unit: 'binary' }), fc.constant('#1')),
  }) as fc.Arbitrary<Raw>,
  fc.constant<Raw>({ form: 'none' }),
  plain({ form: fc.constant('voltage'), deciMicrovolts: integer, coldJunction: integer, said }) as fc.Arbitrary<Raw>,
  plain({ form: fc.constant('temperature'), reported: integer, said }) as fc.Arbitrary<Raw>,
  plain({ form: fc.constant('none'), said }) as fc.Arbitrary<Raw>,
);

const value = (probe: string): fc.Arbitrary<ScanValue> =>
  fc.oneof(
    plain({ probe: fc.constant(probe), quality: fc.constant('good'), temperature: integer, raw }),
    plain({ probe: fc.constant(probe), quality: fc.constantFrom(...qualities.slice(1)), raw }),
  ) as fc.Arbitrary<ScanValue>;

const probeLists = [[], ['A1'], ['A1', 'A2'], ['A2', 'A1'], ['#', 'Å"']];

export const arbitraryScan: fc.Arbitrary<Scan> = fc.constantFrom(...probeLists).chain(
  (probes) =>
    plain({
      board: fc.constantFrom('b', 'board-2', '#3'),
      boot: natural,
      sequence: natural,
      ticks: natural,
      measuredAt: natural,
      arrivedAt: natural,
      late: fc.boolean(),
      inputs: fc.nat({ max: 255 }),
      values: fc.tuple(...probes.map(value)),
    }) as unknown as fc.Arbitrary<Scan>,
);

export const scansOf = (maxLength: number): fc.Arbitrary<readonly Scan[]> =>
  fc.array(arbitraryScan, { minLength: 1, maxLength });
