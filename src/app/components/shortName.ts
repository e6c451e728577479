/** "Bare ground (soil, thatch)" by its name alone: what is called has to be read at a glance. */
export const shortName = (name: string): string => name.replace(/\s*\(.*\)$/, '');
