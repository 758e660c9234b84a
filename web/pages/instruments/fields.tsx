/** The fields of one kind of connection: what the manual of the instrument says, in the words of such manuals. */
import { thermocoupleTypes } from '../../../server/measure/thermocouple.ts';
import { ChoiceField, SelectField, TextField } from '../../parts/field.tsx';
import type { Draft } from './draft.ts';

export interface FieldsProps {
  readonly draft: Draft;
  readonly put: (name: string, value: string) => void;
  readonly ports: readonly { readonly path: string; readonly detail: string }[];
}

type One = FieldsProps & { readonly name: string; readonly label: string };

function Text({ draft, put, name, label, hint, number }: One & { readonly hint?: string; readonly number?: boolean }) {
  return (
    <TextField
      label={label}
      value={draft[name] ?? ''}
      onValue={(value) => put(name, value)}
      {...(hint === undefined ? {} : { hint })}
      {...(number === true ? { kind: 'number' as const } : {})}
    />
  );
}

function Select({
  draft,
  put,
  name,
  label,
  choices,
}: One & { readonly choices: readonly (readonly [string, string])[] }) {
  return (
    <SelectField
      label={label}
      value={draft[name] ?? ''}
      choices={[['', 'choose'] as const, ...choices].map(([value, text]) => ({ value, text }))}
      onValue={(value) => put(name, value)}
    />
  );
}

const same = (...values: readonly string[]): readonly (readonly [string, string])[] =>
  values.map((value) => [value, value]);

export function ConnectionFields(props: FieldsProps) {
  const { draft } = props;
  const isModbus = draft.kind === 'modbus rtu' || draft.kind === 'modbus tcp';
  return (
    <>
      <div class="instrument-fields">
        <Text {...props} name="name" label="What people call it" />
        <Text
          {...props}
          name="board"
          label="Name of the instrument"
          hint={
            isModbus
              ? 'With several addresses, each gets its address behind this name.'
              : 'Probes of a joint name it as their board.'
          }
        />
        {draft.kind === 'modbus rtu' && <Serial {...props} />}
        {draft.kind === 'modbus tcp' && <Address {...props} />}
      </div>
      {draft.kind === 'text lines' && <Lines {...props} />}
      {isModbus && <Registers {...props} />}
      {draft.kind === 'csv folder' && <Folder {...props} />}
    </>
  );
}

function Serial(props: FieldsProps) {
  const { draft, put, ports } = props;
  return (
    <>
      <TextField
        label="Port"
        value={draft.port ?? ''}
        suggestions={ports.map(({ path }) => path)}
        hint={
          ports.length === 0
            ? 'As /dev/ttyUSB0 or COM3.'
            : `This machine lists ${ports.map(({ path }) => path).join(', ')}.`
        }
        onValue={(value) => put('port', value)}
      />
      <Select
        {...props}
        name="baud"
        label="Speed"
        choices={same('1200', '2400', '4800', '9600', '19200', '38400', '57600', '115200')}
      />
      <Select {...props} name="parity" label="Parity" choices={same('none', 'even', 'odd')} />
      <Select {...props} name="stopBits" label="Stop bits" choices={same('1', '2')} />
    </>
  );
}

function Address(props: FieldsProps) {
  return (
    <>
      <Text {...props} name="host" label="Address on the network" hint="As 192.168.4.20." />
      <Text {...props} name="tcpPort" label="Port of that address" number hint="502 for Modbus." />
    </>
  );
}

function Channels(props: FieldsProps) {
  return (
    <>
      <Text {...props} name="channels" label="Channels" number />
      <Select
        {...props}
        name="thermocouple"
        label="Type the instrument is set to"
        choices={same(...thermocoupleTypes)}
      />
      <Text {...props} name="seconds" label="Read every, seconds" number />
    </>
  );
}

function Registers(props: FieldsProps) {
  const isLong = /32$/.test(props.draft.number ?? '');
  return (
    <div class="instrument-fields">
      <Text {...props} name="addresses" label="Addresses of the modules" hint="As 3, or 3 4 5 for several alike." />
      <Select
        {...props}
        name="registers"
        label="Kind of registers"
        choices={[
          ['input', 'input (function 4)'],
          ['holding', 'holding (function 3)'],
        ]}
      />
      <Select {...props} name="firstRegister" label="The manual counts registers from" choices={same('0', '1')} />
      <Text {...props} name="register" label="Register of channel 1" number />
      <Select
        {...props}
        name="number"
        label="Number"
        choices={[
          ['int16', '16 bits with sign'],
          ['uint16', '16 bits without sign'],
          ['int32', '32 bits with sign'],
          ['uint32', '32 bits without sign'],
          ['float32', '32 bits, floating point'],
        ]}
      />
      {isLong && (
        <Select {...props} name="words" label="Order of its two registers" choices={same('high first', 'low first')} />
      )}
      <Text {...props} name="scale" label="One step is worth" number hint="0.1 where 235 means 23.5." />
      <Select
        {...props}
        name="unit"
        label="Unit"
        choices={[
          ['C', '°C'],
          ['F', '°F'],
          ['K', 'kelvin'],
        ]}
      />
      <Text
        {...props}
        name="fault"
        label="Raw value of a broken wire"
        hint="Hexadecimal, as 7FFF. Open one input and look."
      />
      <Channels {...props} />
    </div>
  );
}

function Lines(props: FieldsProps) {
  const { draft, put } = props;
  return (
    <>
      <ChoiceField
        label="Connected by"
        value={draft.line ?? 'serial'}
        choices={[
          { value: 'serial', text: 'a serial port' },
          { value: 'network', text: 'the network' },
        ]}
        onValue={(value) => put('line', value)}
      />
      <div class="instrument-fields">
        {draft.line === 'network' ? <Address {...props} /> : <Serial {...props} />}
        {draft.line !== 'network' && <Select {...props} name="dataBits" label="Data bits" choices={same('8', '7')} />}
        <Text
          {...props}
          name="query"
          label="What is sent to ask"
          hint="Empty where it speaks by itself. \r and \n are ends of lines."
        />
        <Text
          {...props}
          name="pattern"
          label="How a line is written"
          hint="T1={1} T2={2}, or CH{channel}: {value}; {*} is anything."
        />
        {(draft.pattern ?? '') === '' && (
          <>
            <Text
              {...props}
              name="separator"
              label="or: what stands between columns"
              hint="One character, tab or blanks."
            />
            <Text {...props} name="column" label="Column of channel 1" number hint="The first is 1." />
          </>
        )}
        <Select
          {...props}
          name="unit"
          label="Unit"
          choices={[
            ['C', '°C'],
            ['F', '°F'],
            ['K', 'kelvin'],
            ['beside each value', 'stands beside each value'],
          ]}
        />
        <Select
          {...props}
          name="decimal"
          label="Decimal mark"
          choices={[
            ['.', 'point'],
            [',', 'comma'],
          ]}
        />
        <Text {...props} name="fault" label="What it writes for a broken wire" />
        <Channels {...props} />
      </div>
    </>
  );
}

function Folder(props: FieldsProps) {
  return (
    <div class="instrument-fields">
      <Text {...props} name="folder" label="Folder on the machine of the station" />
      <Text {...props} name="files" label="Names of the files" hint="With * for what differs: run-*.csv" />
      <Text
        {...props}
        name="columns"
        label="Headers of the columns"
        hint="In the order of channels, parted by semicolons: TC 1; TC 2"
      />
      <Select {...props} name="thermocouple" label="Type the logger is set to" choices={same(...thermocoupleTypes)} />
      <Select
        {...props}
        name="unit"
        label="Unit"
        choices={[
          ['C', '°C'],
          ['F', '°F'],
          ['K', 'kelvin'],
        ]}
      />
      <Select
        {...props}
        name="decimal"
        label="Decimal mark"
        choices={[
          ['.', 'point'],
          [',', 'comma'],
        ]}
      />
      <Select
        {...props}
        name="order"
        label="Dates, where they can be misread"
        choices={same('year month day', 'day month year', 'month day year')}
      />
      <Text {...props} name="seconds" label="It writes every, seconds" number />
    </div>
  );
}
