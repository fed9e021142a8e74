/**
 * In place of the browser's `Audio`: as much of a media element of 10 s as playing asks of it; it stops by itself at the end.
 * @param toldAfterMs how much later it tells of a stop, as a browser's does; at once where left out
 */
export function falseAudio({ toldAfterMs }: { toldAfterMs?: number } = {}) {
  return class FalseAudio extends EventTarget {
    static made: FalseAudio;
    currentTime = 0;
    paused = true;
    seeking = false;
    playbackRate = 1;
    src = "";
    get ended() {
      return this.currentTime >= 10;
    }
    constructor() {
      super();
      FalseAudio.made = this;
    }
    async play() {
      this.paused = false;
      this.dispatchEvent(new Event("play"));
    }
    pause() {
      if (!this.paused) this.stop("pause");
    }
    runOut() {
      this.currentTime = 10;
      this.stop("pause", "ended");
    }
    removeAttribute(_name: "src") {
      this.src = "";
    }
    load() {}
    /** Not private: a class that is given out by a function can have nothing private. */
    stop(...events: string[]) {
      this.paused = true;
      for (const name of events) {
        const tell = () => this.dispatchEvent(new Event(name));
        if (toldAfterMs === undefined) tell();
        else setTimeout(tell, toldAfterMs);
      }
    }
  };
}
