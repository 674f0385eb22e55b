package dev.lapwing.bench;

/** Hears a bench and does nothing about it. */
public enum Silence implements SelectiveListener {
    INSTANCE
}
