/**
 * Finds the browser that the browser tests drive: one of the Chromium family, wherever this system keeps it; on
 * Debian and its kin, as root, it is installed from the system's own packages. Plain JavaScript: runs before a build.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { run, say } from '../server/install.mjs';

/** The path of a browser that is there and starts, or undefined. */
export const installedBrowser = () => places().find(starts);

/** As installedBrowser, but installs one first where none is there and that is allowed. */
export async function browserProgram() {
  const found = installedBrowser();
  if (found !== undefined || !mayInstall()) return found;
  say('No browser of the Chromium family found; installing chromium from the system packages.');
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  await run('apt-get', ['update', '-qq'], { env });
  await run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium', 'fonts-dejavu'], { env });
  return installedBrowser();
}

/** The one command that would enable the browser tests on this system. */
export function enablingCommand() {
  if (process.platform === 'darwin') return 'brew install --cask chromium';
  if (process.platform === 'win32') return 'winget install --exact --id Google.Chrome';
  if (isOnPath('apt-get')) return 'sudo apt-get install -y chromium fonts-dejavu';
  if (isOnPath('dnf')) return 'sudo dnf install -y chromium';
  if (isOnPath('pacman')) return 'sudo pacman -S --noconfirm chromium';
  return 'CHROMIUM=/path/to/chromium npm test';
}

const onPath = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'microsoft-edge'];

function* candidates() {
  for (const named of [process.env.PREHEAT_BROWSER, process.env.CHROMIUM]) if (named) yield named;
  for (const name of onPath) for (const folder of pathFolders()) yield join(folder, name);
  for (const name of ['Chromium', 'Google Chrome', 'Microsoft Edge']) {
    yield join('/Applications', `${name}.app`, 'Contents', 'MacOS', name);
  }
  for (const folder of [process.env.ProgramFiles, process.env['ProgramFiles(x86)'], process.env.LOCALAPPDATA]) {
    if (folder === undefined) continue;
    yield join(folder, 'Chromium', 'Application', 'chrome.exe');
    yield join(folder, 'Google', 'Chrome', 'Application', 'chrome.exe');
    yield join(folder, 'Microsoft', 'Edge', 'Application', 'msedge.exe');
  }
}

const places = () => [...candidates()].filter((place) => existsSync(place));

/** On Windows the program opens a window instead of naming its version, so that there being found is enough. */
function starts(program) {
  if (process.platform === 'win32') return true;
  return spawnSync(program, ['--version'], { stdio: 'ignore', timeout: 20_000 }).status === 0;
}

const pathFolders = () => (process.env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
const isOnPath = (name) => pathFolders().some((folder) => existsSync(join(folder, name)));
const mayInstall = () => process.platform === 'linux' && process.getuid?.() === 0 && isOnPath('apt-get');
