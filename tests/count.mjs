/**
 * A vitest reporter that counts what the last line of `npm test` says, from the outcomes themselves. What did not
 * run is not passed over: a file that cannot be loaded, a failed set-up of a group, an error outside every test and
 * a test that was never reached each count as failed; a skipped test needs a reason, or it counts as failed too.
 */
export class Count {
  passed = 0;
  failed = 0;
  /** Reason to the full names of the tests skipped for it. */
  skipped = new Map();
  /** What counts as failed without being a test that ran, in words. */
  complaints = [];

  constructor({ reasonForFile }) {
    this.reasonForFile = reasonForFile;
  }

  onTestRunEnd(testModules, unhandledErrors) {
    for (const module of testModules) {
      for (const error of module.errors()) this.complain(`${module.relativeModuleId}: ${error.message}`);
      for (const suite of module.children.allSuites()) {
        for (const error of suite.errors()) this.complain(`${suite.fullName}: ${error.message}`);
      }
      for (const test of module.children.allTests()) this.take(module, test);
    }
    for (const error of unhandledErrors) this.complain(`outside every test: ${error.message}`);
  }

  take(module, test) {
    const result = test.result();
    if (result.state === 'passed') this.passed += 1;
    else if (result.state === 'failed') this.failed += 1;
    else if (result.state === 'pending') this.complain(`${test.fullName}: was not reached`);
    else this.skip(module, test, result.note);
  }

  skip(module, test, note) {
    const name = `${module.relativeModuleId} > ${test.fullName}`;
    // A group whose set-up failed skips its tests; the set-up has been counted.
    if (isUnderFailedSuite(test)) return;
    const reason = note ?? reasonInName(test.fullName) ?? this.reasonForFile(module.relativeModuleId);
    if (reason === undefined) return this.complain(`${name}: skipped without a reason`);
    this.skipped.set(reason, [...(this.skipped.get(reason) ?? []), name]);
  }

  complain(what) {
    this.failed += 1;
    this.complaints.push(what);
  }

  get skippedCount() {
    return [...this.skipped.values()].reduce((sum, names) => sum + names.length, 0);
  }

  get line() {
    return `${this.passed} passed, ${this.failed} failed, ${this.skippedCount} skipped`;
  }

  /** Nothing having run is a failure: a pattern that matches no test must not look like success. */
  get isGood() {
    return this.failed === 0 && this.passed > 0;
  }
}

function isUnderFailedSuite(test) {
  for (let above = test.parent; above.type === 'suite'; above = above.parent) {
    if (above.errors().length > 0) return true;
  }
  return test.module.errors().length > 0;
}

/** "... (skipped: shared measurements are absent)" at the end of a test's or a group's name. */
const reasonInName = (name) => /\(skipped: ([^)]+)\)/.exec(name)?.[1];
