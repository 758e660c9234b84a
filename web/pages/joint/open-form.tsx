/** The form of what a person does at a joint, in place of the buttons. All forms are one part of the page, loaded when it stands. */
import type { Act } from '../../../server/weld/entry.ts';
import type { OpenSheet } from './act-draft.ts';
import { AfterSheet } from './after-sheet.tsx';
import { AmbientSheet } from './ambient-sheet.tsx';
import { AnswerSheet } from './answer-sheet.tsx';
import { BreakSheet } from './break-sheet.tsx';
import { ChangeOverSheet } from './change-over-sheet.tsx';
import { ChecksSheet } from './checks-sheet.tsx';
import { DispositionSheet } from './disposition-sheet.tsx';
import { DocumentSheet } from './document-sheet.tsx';
import { ContactSheet } from './hand-sheet.tsx';
import { CorrectPassSheet, PassDetailsSheet, PassEndSheet, PassStartSheet } from './pass-sheets.tsx';
import { ProbeSheet } from './probe-sheet.tsx';
import { CloseSheet, DeclareSheet, HeatSheet, NoteSheet, type SheetProps } from './sheets.tsx';
import { TwinSheet } from './twin-sheet.tsx';

interface Props extends SheetProps {
  readonly open: OpenSheet;
  /** What a pass begun now would be recorded as; undefined while all conditions are met. */
  readonly outside: string | undefined;
  /** Something was recorded, and the form stays for the next. */
  readonly stay: (act: Act) => void;
}

export function OpenForm({ open, outside, stay, ...props }: Props) {
  switch (open.kind) {
    case 'heat':
      return <HeatSheet {...props} />;
    case 'pass start':
      return <PassStartSheet {...props} outside={outside} />;
    case 'pass end':
      return <PassEndSheet {...props} />;
    case 'pass details':
      return <PassDetailsSheet {...props} key={open.pass} pass={open.pass ?? ''} />;
    case 'correct pass':
      return <CorrectPassSheet {...props} key={open.pass} pass={open.pass ?? ''} />;
    case 'contact reading':
      return <ContactSheet {...props} />;
    case 'twin reading':
      return <TwinSheet {...props} />;
    case 'after':
      return <AfterSheet {...props} />;
    case 'checks':
      return <ChecksSheet {...props} stay={stay} />;
    case 'break':
      return <BreakSheet {...props} />;
    case 'note':
      return <NoteSheet {...props} />;
    case 'attach':
      return <DocumentSheet {...props} />;
    case 'close':
      return <CloseSheet {...props} />;
    case 'disposition':
      return <DispositionSheet {...props} stay={stay} />;
    case 'change over':
      return <ChangeOverSheet {...props} />;
    case 'declare source':
      return <DeclareSheet {...props} />;
    case 'accept':
      return <AnswerSheet {...props} />;
    case 'ambient check':
      return <AmbientSheet {...props} />;
    case 'probe':
      return <ProbeSheet {...props} key={open.probe} probe={open.probe ?? ''} />;
  }
}
