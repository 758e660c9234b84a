/** Types of browser-program.mjs, which is plain JavaScript because it runs before anything is installed. */

/** The path of a browser that starts; installs one where it may. */
export function browserProgram(): Promise<string | undefined>;
/** The path of a browser that is there and starts; installs nothing. */
export function installedBrowser(): string | undefined;
export function enablingCommand(): string;
