/** What the tabs of one browser that show the same project say to each other. */
export interface TabChannel {
  send(message: unknown): void;
  /** Called with what other tabs send; never with what this one sent. */
  listen(listener: (message: unknown) => void): void;
  close(): void;
}

/** The browser's own channel between tabs of one origin. */
export function browserTabChannel(name: string): TabChannel {
  const channel = new BroadcastChannel(name);
  return {
    send: (message) => channel.postMessage(message),
    listen: (listener) => channel.addEventListener('message', (event: MessageEvent) => listener(event.data)),
    close: () => channel.close(),
  };
}
