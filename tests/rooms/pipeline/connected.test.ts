/** An instrument that was connected: what it tells is judged and recorded as a board's readings are, and the record says what it is. */
import { expect, test } from 'vitest';
import { readingsCsv } from '../../../server/report/csv.ts';
import { stationWords } from '../../../server/report/event-words.ts';
import { connectedBy } from '../../../server/weld/connection/connection.ts';
import type { Scan } from '../../../server/weld/scan.ts';
import type { ToldValue } from '../../../server/weld/told.ts';
import { createSpeaker } from '../../../server/wire/connection/speaker.ts';
import { connectionIn, register, rtuFile, slaveFile } from '../../support/connection-files.ts';
import { jointOn, type PipelineBench, pipelineBench, probeOn } from '../../support/pipeline-bench.ts';
import { plainJoint, plainProcedure } from '../../support/plain-joint.ts';

const channels = [register, { ...register, channel: 2, register: 2, thermocouple: 'J' }];
const connection = connectionIn(rtuFile([slaveFile({ board: 'b1', channels })], { name: 'Bay 2', port: 'COM7' }));

const speakerOn = ({ clock, pipeline }: PipelineBench) =>
  createSpeaker({
    connection,
    instrument: connectedBy(connection)[0]!,
    clock,
    onEvent: (event) => pipeline.wire(event),
  });
const scansOf = (bench: PipelineBench, joint: string): Scan[] =>
  [...bench.record.inputs(joint)].flatMap((input) => (input.type === 'scan' ? [input.scan] : []));
const at = (celsius: number): ToldValue => ({ channel: 1, said: '05DD', reported: (1000 * celsius) as never });

test('its temperatures are judged, each with what it said; a wire of another type is not read from it', async () => {
  const bench = pipelineBench();
  await bench.open(jointOn('one', 'b1'));
  const speaker = speakerOn(bench);
  speaker.hello();
  speaker.heard();
  speaker.told([at(150.1), { channel: 2, said: '05DE', reported: 150_200 as never }]);
  bench.clock.move(1000);
  speaker.told([
    { channel: 1, said: 'no answer', fault: 'no reading' },
    { channel: 2, said: '7FFF', fault: 'open' },
  ]);
  bench.clock.move(1000);
  expect(scansOf(bench, 'one').map(({ values }) => values)).toEqual([
    [
      {
        probe: 'b1-1',
        quality: 'good',
        temperature: 150_100,
        raw: { form: 'temperature', reported: 150_100, said: '05DD' },
      },
      { probe: 'b1-2', quality: 'no reading', raw: { form: 'temperature', reported: 150_200, said: '05DE' } },
    ],
    [
      { probe: 'b1-1', quality: 'no reading', raw: { form: 'none', said: 'no answer' } },
      { probe: 'b1-2', quality: 'open', raw: { form: 'none', said: '7FFF' } },
    ],
  ]);
  const [first, second] = scansOf(bench, 'one');
  expect(second!.measuredAt - first!.measuredAt).toBe(1000);
  const { joint } = bench.pipeline.run('one')!;
  const csv = [
    ...readingsCsv(scansOf(bench, 'one'), joint, { source: 'measured', station: 's', joint: 'one', zone: 'UTC' }, {
      correct: (_probe: string, _at: number, value: number) => value,
      expandedUncertainty: () => undefined,
    } as never),
  ].join('');
  expect(csv).toContain('temperature,,,150.100,05DD,b1,1');
  expect(csv).toContain('none,,,,no answer,b1,1');
});

test('the record says how it is read, and doubts it until a person says what is connected', async () => {
  const bench = pipelineBench();
  await bench.open(plainJoint({ id: 'one', procedure: plainProcedure, probes: [probeOn('b1', 1)] }));
  const speaker = speakerOn(bench);
  speaker.hello();
  speaker.heard();
  bench.pipeline.portIdentified('COM7 address 3', {
    verified: false,
    detail: 'the instrument does not identify itself',
  });
  speaker.told([at(150)]);
  bench.clock.move(1000);
  expect(bench.pipeline.run('one')!.assessment.source).toEqual({
    kind: 'not verified',
    detail: 'b1 (Modbus RTU, temperatures as it works them out itself): the instrument does not identify itself',
  });
  const named = [...bench.record.inputs('one')].flatMap((input) =>
    input.type === 'station' && input.event.kind === 'board' ? [input.event] : [],
  );
  expect(named).toMatchObject([{ board: 'b1', port: 'COM7 address 3', simulated: false, connection }]);
  expect(stationWords(named[0]!)).toBe(
    'Instrument b1 at COM7 address 3, read by Modbus RTU, temperatures as it works them out itself',
  );
  await bench.act('one', { kind: 'declare source', statement: 'module 4 of bay 2, calibrated in March' });
  expect(bench.pipeline.run('one')!.assessment.source.kind).toBe('measured');
});

test('a start of the station is another boot, and goes on with the same instrument', async () => {
  const bench = pipelineBench();
  await bench.open(jointOn('one', 'b1'));
  const before = speakerOn(bench);
  before.hello();
  before.told([at(100)]);
  bench.clock.move(1000);
  bench.restart({ awayMilliseconds: 60_000 });
  const after = speakerOn(bench);
  after.hello();
  after.told([at(110)]);
  bench.clock.move(1000);
  const scans = scansOf(bench, 'one');
  expect(scans).toHaveLength(2);
  expect(scans[1]!.boot).toBeGreaterThan(scans[0]!.boot);
  expect(scans[1]!.measuredAt - scans[0]!.measuredAt).toBeGreaterThanOrEqual(60_000);
});
