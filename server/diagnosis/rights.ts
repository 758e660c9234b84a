/** Who may open a port on this computer, and what to do where this user may not. */
import { accessSync, constants, readFileSync, statSync } from 'node:fs';
import { userInfo } from 'node:os';

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
    return rightsText({ mode: stat.mode, gid: stat.gid, group, user: userInfo().username, platform });
  }
}

export interface Held {
  readonly mode: number;
  readonly gid: number;
  readonly group: string;
  /** Who runs the station: not always who reads this. */
  readonly user: string;
  readonly platform: string;
}

/** A group helps only where it may open the port, and nobody is put into the group of the super-user for a port. */
export function rightsText({ mode, gid, group, user, platform }: Held): string {
  const helps = (mode & 0o060) === 0o060 && gid !== 0;
  if (!helps)
    return platform === 'linux'
      ? `The user ${user} may not open it, and no group of users may: let a udev rule give ports of this adapter to a group (GROUP="dialout", MODE="0660"), "sudo usermod -aG dialout ${user}", then plug it in again and log in anew.`
      : `The user ${user} may not open it, and no group of users may: let an administrator of this computer change that.`;
  return platform === 'linux'
    ? `The user ${user} may not open it. It belongs to the group ${group}: "sudo usermod -aG ${group} ${user}", then log out and in again; a service is started anew.`
    : `The user ${user} may not open it. It belongs to the group ${group}: start the station as a user of that group.`;
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
