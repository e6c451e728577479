/** The first byte that differs, in words that a failing test can show; null for equal bytes. */
export function firstDifference(inNode: ArrayLike<number>, inBrowser: ArrayLike<number>): string | null {
  if (inNode.length !== inBrowser.length) return `${inNode.length} bytes against ${inBrowser.length}`;
  for (let at = 0; at < inNode.length; at += 1) {
    if (inNode[at] !== inBrowser[at])
      return `byte ${at}: ${inNode[at]} in Node, ${inBrowser[at]} in the browser`;
  }
  return null;
}
