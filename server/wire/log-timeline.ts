/**
 * The times of a log's rows, one after the other: in one form, forward, and through the two nights of the year in which local
 * time has an hour twice or not at all. There the order of the rows decides, and it is remarked.
 */
import type { Instant } from '../measure/quantity.ts';
import type { LogProblem } from './log-problem.ts';
import { readTime, type TimeForm, type TimeOptions, type TimeRead } from './log-time.ts';

type TimeTaken = { readonly at: Instant } | { readonly problem: LogProblem };

export class Timeline {
  readonly #options: TimeOptions;
  readonly #remark: (remark: LogProblem) => void;
  #form: TimeForm | undefined;
  #last: { readonly at: Instant; readonly line: number; readonly isSecond: boolean } | undefined;
  #before: Instant | undefined;
  #midnights = 0;
  #isTold = { twice: false, skipped: false };

  constructor(options: TimeOptions, remark: (remark: LogProblem) => void) {
    this.#options = options;
    this.#remark = remark;
  }

  get form(): TimeForm | undefined {
    return this.#form;
  }

  take(text: string, line: number): TimeTaken {
    const read = this.#read(text);
    if (!read.ok) {
      const { problem: message, question } = read;
      return { problem: { line, message, ...(question === undefined ? {} : { question }) } };
    }
    this.#form ??= read.form;
    if (read.form !== this.#form) {
      return { problem: { line, message: `the time "${text}" is written in another form than on the first row` } };
    }
    const { at, isSecond } = this.#placed(read, text, line);
    const last = this.#last;
    if (last !== undefined && at <= last.at) return { problem: this.#notForward(text, line, at, last) };
    this.#before = last?.at;
    this.#last = { at, line, isSecond };
    return { at };
  }

  /** Times of day begin a new day where they fall back by more than half of one. */
  #read(text: string): TimeRead {
    const { clock, day } = this.#options;
    if (clock !== 'time of day' && day === undefined) return readTime(text, this.#options);
    const shifted = (days: number): TimeRead =>
      readTime(text, { ...this.#options, ...(day === undefined ? {} : { day: day + days * 86_400_000 }) });
    const read = shifted(this.#midnights);
    if (!read.ok || this.#last === undefined || this.#last.at - read.at < 12 * 3_600_000) return read;
    this.#midnights += 1;
    return shifted(this.#midnights);
  }

  #placed(read: TimeRead & { ok: true }, text: string, line: number): { at: Instant; isSecond: boolean } {
    if (read.isSkipped === true && !this.#isTold.skipped) {
      this.#isTold.skipped = true;
      this.#remark({
        line,
        message: `the clocks of the zone have no "${text}": it counts on from before they were put forward. If the logger never changes its clock, state its offset in place of the zone`,
      });
    }
    if (read.secondAt === undefined) return { at: read.at, isSecond: false };
    // The clock was put back by an hour: a row that is a little early is out of order, one that is far back is the second time.
    const last = this.#last;
    const isSecond =
      last !== undefined && last.at > read.at && (last.isSecond || last.at - read.at > (read.secondAt - read.at) / 2);
    if (!this.#isTold.twice || (isSecond && last?.isSecond === false)) {
      this.#isTold.twice = true;
      this.#remark({
        line,
        message: `the clocks of the zone show "${text}" twice; by the order of the rows it is the ${isSecond ? 'second' : 'first'} time. If that is wrong, state the offset in place of the zone`,
      });
    }
    return { at: isSecond ? read.secondAt : read.at, isSecond };
  }

  #notForward(
    text: string,
    line: number,
    at: Instant,
    last: { readonly at: Instant; readonly line: number },
  ): LogProblem {
    const how = at === last.at ? 'is the same as' : 'is earlier than';
    const isSecondRow = this.#before === undefined && at < last.at;
    return {
      line,
      message: `the time "${text}" ${how} that of line ${last.line}; rows must go forward in time${isSecondRow ? '. If the log runs from late to early, sort it by time first' : ''}`,
      question: { asks: 'leaveOutRows' },
    };
  }
}
