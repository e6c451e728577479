/** Reasons for which the store cannot be used, as part of a longer sentence. */
export const storageReasons = {
  insecureContext:
    'the page was not opened over https or from localhost, and browsers offer no safe storage elsewhere',
};
