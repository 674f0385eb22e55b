package dev.lapwing.plant;

/** The pipes that run through the train. */
public enum TrainPipe {
    BRAKE,
    MAIN
}
