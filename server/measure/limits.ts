/**
 * Every bound in one place: lines, buffers, queues, retries, records. A test reaches each of them.
 * Bounds that could change a verdict are not here: they are rules, and stand in judgement/rules.ts.
 */
export const limits = {
  /** Longest line on the wire, without its LF, characters. Stated in PROTOCOL.md. */
  lineLengthMaximum: 512,
  /** Channels on one board. Stated in PROTOCOL.md. */
  channelsMaximum: 16,
  /** Boards that one station reads at once. */
  boardsMaximum: 16,
  /** Boots of one board, and gaps in one boot, whose place on the time line is kept for lines sent again. */
  bootsKept: 2,
  gapsKept: 64,
  /** Probes on one joint. */
  probesMaximum: 64,
  /** Touches of one check at ambient: each probe several times. */
  touchesMaximum: 256,
  /** Checks before welding, and points of inspection, of one procedure. */
  checksMaximum: 60,
  /** Instruments in the register of one joint, and points of one calibration. */
  instrumentsMaximum: 100,
  correctionsMaximum: 30,
  /** Parts of one joint. */
  partsMaximum: 8,
  /** Passes of one joint. */
  passesMaximum: 2000,
  /** Readings by hand of one joint: one for each pass. */
  handReadingsMaximum: 2000,
  /** Revisions of all procedures in one record. */
  procedureRevisionsMaximum: 2000,
  /** Joints open at once on one station. */
  openJointsMaximum: 64,
  /** An alarm put aside, minutes: one shift. */
  shelvingMinutesMaximum: 480,
  /** Free text typed by a person, characters. */
  textMaximum: 4000,
  /** A name, an identifier, a label, characters. */
  nameMaximum: 120,
  /** One document (photo, certificate), bytes. */
  documentMaximum: 15_000_000,
  /** A package of one joint, and what it unpacks to, bytes. */
  packageMaximum: 300_000_000,
  /** One that is handed in on a page; a larger one goes by the command line. */
  packagePageMaximum: 60_000_000,
  unpackedMaximum: 1_500_000_000,
  packageFilesMaximum: 5_000,
  /** A request or an answer of a time stamp authority, bytes; how long its answer is waited for. */
  stampMaximum: 100_000,
  stampWaitMilliseconds: 30_000,
  /** Rules of a stranger, shut in: time, memory, characters of the answer. */
  shutInMilliseconds: 10 * 60_000,
  shutInMegabytes: 2_000,
  shutInAnswerMaximum: 20_000_000,
  /** A JSON body that is not a document, bytes. */
  bodyMaximum: 1_000_000,
  /** An imported log, bytes. */
  logMaximum: 200_000_000,
  /** One record of an imported log or events file, characters. */
  importRecordMaximum: 64_000,
  /** Records at the head of a log among which its header is looked for. */
  logHeaderRecords: 200,
  /** One log that is handed in on a page, and all that wait on the station to be judged, bytes. */
  logPageMaximum: 30_000_000,
  logShelfMaximum: 120_000_000,
  /** Deviations that are decided on in one message. */
  decisionsMaximum: 500,
  /** Logs of one job. */
  logFilesMaximum: 32,
  /** A workbook, bytes, and all that is in it unpacked. */
  workbookMaximum: 30_000_000,
  workbookUnpackedMaximum: 150_000_000,
  /** Rows times columns that one sheet spans. */
  workbookCellsMaximum: 8_000_000,
  /** Problems, and remarks, that are told of one imported file; the rest is counted. */
  importProblemsMaximum: 100,
  /** Lines of one log that hold no reading and are listed; the rest is counted. */
  logSkippedMaximum: 2_000,
  /** Distinct steps of time that are counted to find the period of an imported log. */
  logStepsMaximum: 100_000,
  /** An events file, bytes. */
  eventsMaximum: 5_000_000,
  /** Frames waiting between the wire and the pipeline before the oldest is dropped and counted. */
  queueMaximum: 20_000,
  /** Longest time that inputs wait to be committed together, milliseconds. */
  commitGroupMilliseconds: 100,
  /** Longest time before journalled scans are sealed into a block, milliseconds. */
  sealAfterMilliseconds: 60_000,
  /** One entry of a chain in canonical form, bytes. */
  entryBytesMaximum: 4_000_000,
  /** Objects and lists within each other in one entry. */
  canonicalDepthMaximum: 40,
  /** The scans of one sealed block in canonical form, not compressed, bytes. */
  blockBytesMaximum: 64_000_000,
  /** One scan in canonical form, bytes. */
  scanBytesMaximum: 1_000_000,
  /** Scans of one chain that wait to be sealed, bytes; at this mark they are sealed at once. */
  journalBytesMaximum: 16_000_000,
  /** Scans and entries in one commit. */
  commitItemsMaximum: 20_000,
  /** Items that one question to the record's tail may ask for. */
  tailItemsMaximum: 5_000,
  /** Heads of joint chains noted in one entry of the station's chain. */
  headsPerEntryMaximum: 1_000,
  /** Gaps in time that are listed one by one; more are counted. */
  gapsListedMaximum: 1_000,
  /** Cards of closed joints that are kept in one commit, beside the readings. */
  cardsPerCommitMaximum: 50,
  /** Joints that one answer to a search tells; the rest is counted, and asked for next. */
  foundMaximum: 200,
  /** Closed joints that stand in the list of joints, the newest; the others are searched for. */
  closedListedMaximum: 12,
  /** Scans in one sealed block. */
  scansPerBlockMaximum: 20_000,
  /** First and longest pause between tries to open a port, milliseconds. */
  reopenFirstMilliseconds: 500,
  reopenLongestMilliseconds: 1_500,
  /** Shortest silence on a port that was talking before the link counts as lost; three periods where that is longer. */
  linkSilenceMilliseconds: 1_000,
  /** The same where bytes come and no whole line; six periods where that is longer. */
  linkNoiseMilliseconds: 5_000,
  /** A wake-up that comes later than this was not waited for: the station stood still, which is no silence of the board. */
  oversleptMilliseconds: 250,
  /** How long a port may take to open, and to close, before it counts as stuck, milliseconds. */
  portOpenMilliseconds: 5_000,
  portCloseMilliseconds: 2_000,
  /** What comes before any hello is judged as strange from this time after the opening, at so many lines or bytes. */
  strangeMilliseconds: 3_000,
  strangeLines: 5,
  strangeBytes: 24,
  /** A port that the station may find by itself is listened to for so long before anything is written to it. */
  listenFirstMilliseconds: 2_500,
  /** A second board with the same identity is told once the first was heard again so long after it, milliseconds. */
  twinCertainMilliseconds: 500,
  /** Boards whose sequence numbers are remembered, read or not. */
  boardsRememberedMaximum: 64,
  /** Starts of one board whose numbers are remembered: another board may have had its name in between. */
  startsRemembered: 4,
  /** Newest lines of one port that are shown as they came. */
  rawLinesKept: 200,
  /** Of what was counted on a link, so much is told as what is wrong now, to this step; own choice. */
  latelyMilliseconds: 3_600_000,
  latelyStepMilliseconds: 60_000,
  /** A capture of a port: bytes, minutes, captures that run at once, and those that a station keeps. */
  captureBytesMaximum: 20_000_000,
  captureMinutesMaximum: 60,
  capturesKept: 20,
  /** How often it is looked which ports are plugged in, milliseconds. */
  portsLookMilliseconds: 1_000,
  /** The same where looking means listing them all. */
  portsListMilliseconds: 2_000,
  /** Pause between two askings for a board's hello, and how long it is asked before the port is opened anew, milliseconds. */
  helloAskMilliseconds: 1_000,
  helloWaitMilliseconds: 10_000,
  /** How often a board is asked again for one hole, and how long after its last line of it, milliseconds. */
  refillTriesMaximum: 4,
  refillPatienceMilliseconds: 2_000,
  /** Longest period of a connected instrument, milliseconds. */
  connectionPeriodMaximum: 600_000,
  /** Connections that one station reads. */
  connectionsMaximum: 16,
  /** How long a network address is waited for, milliseconds. */
  networkOpenMilliseconds: 5_000,
  /** One line of an instrument that prints text, characters. */
  textLineMaximum: 1_000,
  /** How often a folder is looked into, milliseconds; what is read of one file at once, and of its beginning, bytes. */
  folderLookMilliseconds: 1_000,
  folderPartMaximum: 1_000_000,
  folderHeadMaximum: 65_536,
  /** Files of a folder that are looked into: those written to last. */
  folderFilesMaximum: 50,
  /** A connection on trial that no page looks at is closed after this long. */
  trialUnseenMilliseconds: 15_000,
  /** Registers that one question asks for at most (Modbus application protocol). */
  registersAsked: 125,
  /** Bytes before an answer that are read past as noise, and bytes of an answer that are held. */
  answerNoiseMaximum: 16,
  answerHeldMaximum: 300,
  /** How long a line that is never quiet is waited for, milliseconds. */
  lineQuietMilliseconds: 2_000,
  /** Tries of one question in one round, and failed rounds after which a slave is asked seldom. */
  questionTries: 2,
  slaveRoundsBeforeSeldom: 3,
  /** How often a slave that does not answer is still asked, milliseconds. */
  seldomMilliseconds: 5_000,
  /** A line on which no slave has answered for so long is opened anew: a dead connection shows in no other way, milliseconds. */
  deafMilliseconds: 10_000,
  /** Commands to one board that may wait to be written. */
  commandsWaitingMaximum: 64,
  /** Bytes that may wait to go into a pseudo-terminal. */
  pseudoTerminalWaitingMaximum: 65_536,
  /** Sequence numbers of one board that are remembered as missing. */
  missingRememberedMaximum: 10_000,
  /** Points that the history sends for one probe and one view. */
  historyPointsMaximum: 2_000,
  /** Steps that a report keeps of one probe: pages of detail draw a part of the job from them. */
  reportPointsMaximum: 4_000,
  /** Alarms of all joints that go to every screen each second, most urgent first. */
  attentionMaximum: 20,
  /** People, trusted screens and qualifications of one person that a station keeps. */
  peopleMaximum: 500,
  trustedScreensMaximum: 100,
  qualificationsMaximum: 50,
  /** People signed on at once; beyond it the one who did nothing for longest is signed off. */
  sessionsMaximum: 200,
  /** Digits of a PIN, and characters of a password. */
  pinShortest: 4,
  pinLongest: 8,
  passwordShortest: 12,
  passwordLongest: 200,
  /** Without a touch a sign-on ends after this long: short for PIN and badge, longer for a password; a shift at most. */
  shortSignOnMilliseconds: 10 * 60_000,
  passwordSignOnMilliseconds: 60 * 60_000,
  longestSignOnMilliseconds: 12 * 60 * 60_000,
  /** How long the second signature of a hand-over may wait for its entries. */
  counterSignMilliseconds: 2 * 60_000,
  /** Wrong tries before a pause, and the pause; a PIN or badge wrong this often in a row is withdrawn. */
  signOnTriesBeforePause: 5,
  signOnPauseMilliseconds: 5 * 60_000,
  shortSignOnTriesMaximum: 15,
  /** Secrets checked at once, and those that wait for it; what comes beyond is turned away. */
  secretsCheckedAtOnce: 2,
  secretsWaitingMaximum: 16,
  /** Bytes that may wait for one slow screen before it is cut off and has to catch up. */
  screenBacklogMaximum: 4_000_000,
} as const;
