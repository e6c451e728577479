/** Reasons for which the store cannot be used, as part of a longer sentence. */
export const storageReasons = {
  insecureContext:
    'the page was not opened over https or from localhost, and browsers offer no safe storage elsewhere',
  closedByBrowser:
    'the browser closed its database, as it does when the device has no room left; make room, then open this page anew',
};
