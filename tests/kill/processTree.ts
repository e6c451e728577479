import { readdirSync, readFileSync } from 'node:fs';

interface Process {
  readonly pid: number;
  readonly parent: number;
  readonly group: number;
  readonly command: string;
}

/** Every process of this machine. Linux only. */
function processes(): Process[] {
  return readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .flatMap((name) => {
      try {
        const stat = readFileSync(`/proc/${name}/stat`, 'utf8');
        // the name in brackets may hold spaces
        const [, parent, group] = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
        const command = readFileSync(`/proc/${name}/cmdline`, 'utf8');
        return [{ pid: Number(name), parent: Number(parent), group: Number(group), command }];
      } catch {
        return []; // gone already
      }
    });
}

/** The browser of a profile folder with all it started: by folder, by descent and by process group. */
export function browserProcesses(profileFolder: string): number[] {
  const all = processes();
  const main = all.filter(({ command }) => command.includes(`--user-data-dir=${profileFolder}`));
  const found = new Set(main.map(({ pid }) => pid));
  // the group of a browser that leads its own
  const groups = new Set(main.filter(({ pid, group }) => pid === group).map(({ group }) => group));
  for (let grew = true; grew; ) {
    grew = false;
    for (const { pid, parent, group } of all) {
      if (found.has(pid) || !(found.has(parent) || groups.has(group))) continue;
      found.add(pid);
      grew = true;
    }
  }
  return [...found];
}

/** Kills a browser and all it started at once, as a pulled plug does. @returns how many processes there were */
export function killBrowser(profileFolder: string): number {
  const pids = browserProcesses(profileFolder);
  for (const pid of pids) {
    try {
      process.kill(pid, 'SIGKILL');
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'ESRCH') throw error;
    }
  }
  return pids.length;
}
