/** The register map of thermocouple modules on a Modbus line or network: which slave, which register, what its number means. */
import { z } from 'zod';
import { limits } from '../../measure/limits.ts';
import {
  boardSchema,
  boundFaultShape,
  channelShape,
  connectionNameSchema,
  doubledChannels,
  faultMeanings,
  givenUnits,
  periodSchema,
} from './channel.ts';
import { connectionFormat } from './format.ts';
import { addressShape, serialShape } from './serial.ts';

const numberForms = ['int16', 'uint16', 'int32', 'uint32', 'float32'] as const;
export type NumberForm = (typeof numberForms)[number];
export const wordsOf = (form: NumberForm): 1 | 2 => (form === 'int16' || form === 'uint16' ? 1 : 2);

const registerSchema = z
  .int()
  .min(0)
  .max(65_536)
  .meta({ description: "The register's number as the manual gives it, without the leading 3 or 4 of its kind." });

const numberShape = {
  register: registerSchema,
  number: z.enum(numberForms),
  scale: z
    .number()
    .refine((scale) => scale !== 0, 'not 0: every value would be the same')
    .meta({ description: 'What one step of the number is worth, in the unit. 0.1 where 235 means 23.5.' }),
  offset: z.number().meta({ description: 'Added after scaling, in the unit.' }).optional(),
  words: z
    .enum(['high first', 'low first'])
    .meta({ description: 'Order of the two registers of a 32 bit number.' })
    .optional(),
  bytes: z
    .enum(['high first', 'low first'])
    .meta({ description: 'Order in a register; high first if not given.' })
    .optional(),
};

const junctionSchema = z.strictObject({ ...numberShape, unit: z.enum(['C', 'F', 'K']) });

const faultSchema = z
  .strictObject({
    raw: z
      .string()
      .regex(/^([0-9A-F]{4}|[0-9A-F]{8})$/, 'four hexadecimal digits for each register, as "7FFF"')
      .optional(),
    ...boundFaultShape,
  })
  .refine(({ raw, above, below }) => [raw, above, below].filter((each) => each !== undefined).length === 1, {
    message: 'one of raw, above and below: which value means the fault',
  });

const channelSchema = z.strictObject({
  ...channelShape,
  ...numberShape,
  unit: z.enum(givenUnits),
  faults: z.array(faultSchema).max(20).optional(),
  /** Bits of a register of its own that flag a fault. */
  status: z
    .strictObject({
      register: registerSchema,
      bits: z
        .array(z.strictObject({ bit: z.int().min(0).max(15), means: z.enum(faultMeanings) }))
        .min(1)
        .max(16),
    })
    .optional(),
  coldJunction: junctionSchema.optional(),
});

const slaveSchema = z.strictObject({
  board: boardSchema,
  address: z.int().min(1).max(247),
  registers: z
    .enum(['holding', 'input'])
    .meta({ description: 'Which kind: holding is read by function 3, input by function 4.' }),
  firstRegister: z
    .literal([0, 1])
    .meta({ description: 'The number that the manual gives to the first register: 0 or 1.' }),
  gaps: z
    .enum(['read', 'leave out'])
    .meta({ description: 'Whether registers between those that are needed may be read along; read if not given.' })
    .optional(),
  /** Where one cold junction serves all channels. */
  coldJunction: junctionSchema.optional(),
  channels: z.array(channelSchema).min(1).max(limits.channelsMaximum),
});

const common = {
  format: connectionFormat,
  name: connectionNameSchema,
  periodMilliseconds: periodSchema,
  answerWithinMilliseconds: z
    .int()
    .min(20)
    .max(10_000)
    .meta({ description: 'How long an answer is waited for; 500 if not given.' })
    .optional(),
  slaves: z.array(slaveSchema).min(1).max(limits.boardsMaximum),
};

export const modbusRtuSchema = z
  .strictObject({
    ...common,
    kind: z.literal('modbus rtu'),
    ...serialShape,
    slowestAnswerMilliseconds: z
      .int()
      .min(20)
      .max(30_000)
      .meta({
        description:
          'The longest time that a slave may take before it answers; 1000 if not given. After a lost answer the line stays quiet for that long.',
      })
      .optional(),
  })
  .superRefine(checkSlaves)
  .meta({ id: 'ModbusRtu', description: 'Thermocouple modules on one serial line.' });

export const modbusTcpSchema = z
  .strictObject({ ...common, kind: z.literal('modbus tcp'), ...addressShape })
  .superRefine(checkSlaves)
  .meta({ id: 'ModbusTcp', description: 'Thermocouple modules behind one network address.' });

export type ModbusRtu = z.infer<typeof modbusRtuSchema>;
export type ModbusTcp = z.infer<typeof modbusTcpSchema>;
export type Slave = z.infer<typeof slaveSchema>;
export type SlaveChannel = Slave['channels'][number];
export type RegisterNumber = Pick<SlaveChannel, 'register' | 'number' | 'scale' | 'offset' | 'words' | 'bytes'>;

function checkSlaves(connection: { readonly slaves: readonly Slave[] }, context: z.RefinementCtx): void {
  const { slaves } = connection;
  const wrong = (path: (string | number)[], message: string): void =>
    context.addIssue({ code: 'custom', path: ['slaves', ...path], message });
  slaves.forEach((slave, index) => {
    const earlier = slaves.slice(0, index);
    if (earlier.some(({ address }) => address === slave.address))
      wrong([index, 'address'], 'an address that no other slave has; two slaves of one address answer over each other');
    if (earlier.some(({ board }) => board === slave.board)) wrong([index, 'board'], 'a name that no other slave has');
    for (const doubled of doubledChannels(slave.channels))
      wrong([index, 'channels', doubled, 'channel'], 'a number that no other channel of this slave has');
    slave.channels.forEach((channel, at) => {
      for (const [place, message] of channelProblems(slave, channel)) wrong([index, 'channels', at, ...place], message);
    });
    if (slave.coldJunction !== undefined) {
      for (const [place, message] of numberProblems(slave, slave.coldJunction))
        wrong([index, 'coldJunction', ...place], message);
    }
  });
}

type Placed = readonly [path: readonly (string | number)[], message: string];

function channelProblems(slave: Slave, channel: SlaveChannel): Placed[] {
  const found: Placed[] = [...numberProblems(slave, channel)];
  const { coldJunction, status, unit, faults, number } = channel;
  if (coldJunction !== undefined)
    found.push(...numberProblems(slave, coldJunction).map(([path, say]): Placed => [['coldJunction', ...path], say]));
  if (status !== undefined && status.register < slave.firstRegister) found.push([['status', 'register'], firstIsOne]);
  if (unit === 'microvolts' && coldJunction === undefined && slave.coldJunction === undefined)
    found.push([['coldJunction'], 'the register of the cold junction: without it a voltage is no temperature']);
  faults?.forEach(({ raw }, at) => {
    if (raw !== undefined && raw.length !== 4 * wordsOf(number))
      found.push([
        ['faults', at, 'raw'],
        `${4 * wordsOf(number)} hexadecimal digits, since ${number} fills ${wordsOf(number) === 1 ? 'one register' : 'two registers'}`,
      ]);
  });
  return found;
}

function numberProblems({ firstRegister }: Slave, { register, number, words }: RegisterNumber): Placed[] {
  const found: Placed[] = [];
  if (register < firstRegister) found.push([['register'], firstIsOne]);
  if (register - firstRegister + wordsOf(number) > 65_536) found.push([['register'], 'at most 65535, counted from 0']);
  if (wordsOf(number) === 2 && words === undefined)
    found.push([
      ['words'],
      `"high first" or "low first": ${number} fills two registers, and the manual says in which order`,
    ]);
  return found;
}

const firstIsOne = 'at least 1, since firstRegister says that the manual counts from 1';
