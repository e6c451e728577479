/** Kept with every figure. A test holds it against package.json. */
export const SOFTWARE_VERSION = '0.1.0';
