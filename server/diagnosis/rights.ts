/** Who may open a port on this computer, and what to do where this user may not. */
import { accessSync, constants, readFileSync, statSync } from 'node:fs';

/** Words for a person; undefined where the port may be opened, or the system has no such rights. */
export function rightsProblem(path: string, platform: string, groupFile = '/etc/group'): string | undefined {
  if (platform === 'win32') return undefined;
  try {
    accessSync(path, constants.R_OK | constants.W_OK);
    return undefined;
  } catch {
    const stat = statSync(path, { throwIfNoEntry: false });
    if (stat === undefined) return undefined;
    const group = groupName(stat.gid, groupFile) ?? `number ${stat.gid}`;
    return platform === 'linux'
      ? `This user may not open it. It belongs to the group ${group}: "sudo usermod -aG ${group} $USER", then log out and in again.`
      : `This user may not open it. It belongs to the group ${group}: start the station as a user of that group.`;
  }
}

const groupName = (gid: number, file: string): string | undefined => {
  try {
    const line = readFileSync(file, 'utf8')
      .split('\n')
      .find((each) => each.split(':')[2] === String(gid));
    return line?.split(':')[0];
  } catch {
    return undefined;
  }
};
