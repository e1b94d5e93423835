/** A short beep, once a tap has allowed it: browsers let no page sound by itself. What is heard is always written too. */
import { useEffect, useSyncExternalStore } from 'react';

const BEEP_HERTZ = 880;
const BEEP_SECONDS = 0.25;
const LOUDNESS = 0.2;
/** Between two beeps while an alarm that nobody has seen goes on. */
const EVERY_MS = 10_000;

let context: AudioContext | null = null;
const listeners = new Set<() => void>();

/** Allows sound in this page, from a tap, or takes it back. */
export function setSound(isOn: boolean): void {
  if (isOn && context === null) {
    context = new AudioContext();
    beep(context);
  } else if (!isOn && context !== null) {
    void context.close();
    context = null;
  }
  for (const listener of listeners) listener();
}

/** Whether alarms may sound in this page. */
export function useSoundOn(): boolean {
  return useSyncExternalStore(subscribe, () => context !== null);
}

/** Beeps at once and every few seconds for as long as something sounds. */
export function useBeeping(isSounding: boolean): void {
  const isOn = useSoundOn();
  useEffect(() => {
    if (!isSounding || !isOn) return undefined;
    const sound = (): void => { if (context !== null) beep(context); };
    sound();
    const timer = setInterval(sound, EVERY_MS);
    return () => clearInterval(timer);
  }, [isSounding, isOn]);
}

function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

function beep(audio: AudioContext): void {
  const tone = audio.createOscillator();
  const volume = audio.createGain();
  tone.frequency.value = BEEP_HERTZ;
  volume.gain.value = LOUDNESS;
  tone.connect(volume).connect(audio.destination);
  tone.start();
  tone.stop(audio.currentTime + BEEP_SECONDS);
}
