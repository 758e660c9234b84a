/**
 * What a record of preheating has to hold to be read as one of compliance: "8.3 Minimum field list for the compliance
 * record", a union of what ASME, AWS, EN 1011-2 and ISO 13916 and practice ask to be on paper. Each with how a report shows it, and with
 * how a report names it where nobody gave it.
 */
export interface ComplianceField {
  readonly field: string;
  readonly shown: RegExp;
  readonly lacking?: RegExp;
}

const day = String.raw`\d{4}-\d\d-\d\d`;
/** Without the day in a report of one day. */
const time = String.raw`(${day} )?\d\d:\d\d:\d\d`;
const of = (words: string, flags = ''): RegExp => new RegExp(words, flags);

export const complianceFields: readonly ComplianceField[] = [
  { field: 'job', shown: /Workshop\W+Invented workshop/ },
  { field: 'part, joint and weld id', shown: /Joint\W+.+ \((node-7|post-12|body-3)\)/ },
  { field: 'drawing', shown: /Drawing\W+\w+-\d+ sheet \d/, lacking: /^\W*Drawing/m },
  { field: 'WPS no. and revision', shown: /Procedure\W+WPS-\d\d-\d, revision \d/ },
  { field: 'WPQR no.', shown: /Qualification record\W+WPQR-\d+-\d+/, lacking: /qualification record \(WPQR, PQR\)/ },
  {
    field: 'parent grades, heats, thicknesses and certificate id',
    shown: /side A, .+, \d+ mm, heat H-\d+, certificate C-\d+/,
  },
  { field: 'CE, CET and Pcm used', shown: /CET[\s\S]+0\.\d{3} %[\s\S]+Pcm[\s\S]+0\.\d{3} %/ },
  { field: 'consumable and hydrogen class', shown: /Consumable\W+solid wire, M21 gas, diffusible hydrogen class H5/ },
  { field: 'process', shown: /process 135 \(ISO 4063\)/ },
  { field: 'k, U, I, v, Q', shown: /\d\.\d+ kJ\/mm[\s\S]{0,60}k 0\.8 \(process 135\) × 27 V × \d+ A \/ 3\.7 mm\/s/ },
  { field: 'method, edition', shown: /EN 1011-2 method B \(CET\), EN 1011-2:2001 \+ A1:2003/ },
  { field: 'inputs', shown: /Hydrogen content|Diffusible hydrogen|HD/ },
  { field: 'computed and rounded Tp', shown: /Highest computed that may govern: \d+(\.\d)? °C, rounded up \d+ °C/ },
  { field: 'the governing value and why', shown: /Governed by the procedure\. Procedure WPS/ },
  { field: 'max Ti', shown: /maximum interpass 250 °C/, lacking: /Maximum interpass/ },
  { field: 'Tm', shown: /to be kept in breaks \d+ °C/, lacking: /kept in breaks/ },
  { field: 'heating means, side heated', shown: /Heating\W+resistance pads, on the front face, on while welding/ },
  { field: 'insulated or not', shown: /Behind\W+\w+: still air; \w+: still air/, lacking: /insulated or not/ },
  {
    field: 'thermocouple list: id, type, place, attachment',
    shown: /zone A[\s\S]+front face, \d+ mm from the groove[\s\S]+K, TE, capacitor discharge/,
  },
  { field: 'thermocouple class', shown: /IEC 60584-1 class 1/, lacking: /Class of the thermocouple/ },
  {
    field: 'instrument serial, calibration date and due date',
    shown: of(`board[\\s\\S]+K-\\d+[\\s\\S]+${day}[\\s\\S]+${day}`),
    lacking: /Instruments and their calibration/,
  },
  { field: 'polarity and offset check', shown: of(`Check at ambient, .+, ${time}`), lacking: /polarity and offset/ },
  { field: 'ambient', shown: /Ambient[\s\S]+board-\w+, 7/, lacking: /Temperature of the air/ },
  {
    field: 'weather, surface dry',
    shown: of(`Joint clean and dry, no condensation\\W+In order, .+, ${time}`),
    lacking: /surface was dry/,
  },
  { field: 'log: interval', shown: /Board board-\w+ now sends every 10 s/ },
  { field: 'log: time zone', shown: /local times of Europe\/Oslo \(UTC\+01:00\)/ },
  { field: 'log: gaps', shown: /Gaps without readings: (none|.+\d\d:\d\d:\d\d)/ },
  { field: 'start of heating', shown: of(`Heat first on\\W+${time}`), lacking: /Start of heating/ },
  { field: 'time all points at the minimum', shown: of(`At minimum everywhere\\W+(first at ${time}|never)`) },
  { field: 'heat-off time', shown: of(`off\\W+${time}`), lacking: /End of heating/ },
  { field: 'equalisation wait', shown: /Soak and heat[\s\S]+State at the end\W+\w/ },
  { field: 'each arc on and off', shown: of(`root[\\s\\S]+${time}\\s+to ${time}`) },
  {
    field: 'lowest and highest reading just before the pass',
    shown: /Coldest at start[\s\S]+Interpass at start[\s\S]+\d+ °C far \w[\s\S]+\d+ °C pass A/,
  },
  {
    field: 'breaks with lowest temperature and re-heat',
    shown: /No break in welding is known|Breaks\W[\s\S]+coldest \d+ °C of \d+ °C[\s\S]+Heat on/,
  },
  { field: 'post-heat', shown: /Post-heating\W+(asked: .+ h held|not asked for)/ },
  { field: 'end-of-weld time', shown: of(`Welding complete\\W+${time}`), lacking: /End of welding/ },
  {
    field: 'NDT earliest time',
    shown: of(`Waiting time\\W+\\d+ h from ${time}[,:] (over since|no test before) ${time}`),
    lacking: /Earliest time of the test/,
  },
  { field: 'alarms, acknowledgements, by whom', shown: /No alarm rang|Taken note of, or put aside/ },
  { field: 'deviations', shown: /Deviations\W/ },
  {
    field: 'disposition',
    shown: of(`(No deviation was found|(Accepted|Rejected) .*by [A-Z]\\w+ \\w+.*, ${time})`, 'i'),
  },
  { field: 'welder signature', shown: /Signatures[\s\S]+Welder\W/ },
  { field: 'heater operator signature', shown: /Signatures[\s\S]+Heater operator\W/ },
  { field: 'inspector signature', shown: /Signatures[\s\S]+Inspector\W/ },
  { field: 'hash of raw data', shown: /Head hash\W+[0-9a-f]{64}/ },
];
