package dev.lapwing.plan;

import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.Stimulus;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** Stimuli as people say them. */
record StimulusText(FigureText figures, SignalText signals) {

    String all(List<Stimulus> stimuli, Scope scope) {
        return stimuli.stream().map(stimulus -> one(stimulus, scope)).collect(Collectors.joining(", "));
    }

    private String one(Stimulus stimulus, Scope scope) {
        return cab(stimulus, scope).or(() -> train(stimulus, scope)).orElseThrow();
    }

    private Optional<String> cab(Stimulus stimulus, Scope scope) {
        String text = null;
        if (stimulus instanceof Stimulus.MoveHandle move) {
            text = "handle to " + move.position() + over(move.over(), scope);
        } else if (stimulus instanceof Stimulus.MoveHandleAlong move) {
            text = "handle to " + figures.value(move.share(), scope) + " of " + move.arc() + over(move.over(), scope);
        } else if (stimulus instanceof Stimulus.Deadman deadman) {
            text = "deadman " + (deadman.held() ? "held" : "released");
        } else if (stimulus instanceof Stimulus.Acknowledgement acknowledgement) {
            text = "acknowledgement " + (acknowledgement.pressed() ? "pressed" : "let go");
        } else if (stimulus instanceof Stimulus.MasterSwitch master) {
            text = "master switch " + onOff(master.on());
        } else if (stimulus instanceof Stimulus.Reverser reverser) {
            text = "reverser " + reverser.direction().name().toLowerCase(Locale.ROOT);
        } else if (stimulus instanceof Stimulus.PowerHandle power) {
            text = "power handle to " + (power.notch() == 0 ? "off" : "notch " + power.notch());
        } else if (stimulus instanceof Stimulus.Speed speed) {
            text = "speed " + figures.value(speed.speed(), scope);
        } else if (stimulus instanceof Stimulus.Supply supply) {
            text = supply.name() + " supply " + supplied(supply.level(), scope);
        }
        return Optional.ofNullable(text);
    }

    private Optional<String> train(Stimulus stimulus, Scope scope) {
        String text = null;
        if (stimulus instanceof Stimulus.WireFeed feed) {
            text = feed.wire() + " wire " + (feed.on() ? "fed" : "no longer fed") + " from another cab";
        } else if (stimulus instanceof Stimulus.AlarmValve valve) {
            text = "alarm valve at " + signals.vehicle(valve.vehicle(), scope) + (valve.open() ? " open" : " shut");
        } else if (stimulus instanceof Stimulus.CrewValve valve) {
            text = "crew valve at " + signals.vehicle(valve.vehicle(), scope) + (valve.open() ? " open" : " shut");
        } else if (stimulus instanceof Stimulus.HoseBurst hose) {
            text = pipe(hose.pipe()) + " hose behind " + signals.vehicle(hose.behind(), scope)
                    + (hose.burst() ? " burst" : " whole");
        } else if (stimulus instanceof Stimulus.Parting parting) {
            text = "train " + (parting.parted() ? "parted" : "joined") + " behind "
                    + signals.vehicle(parting.behind(), scope);
        } else if (stimulus instanceof Stimulus.Cock cock) {
            text = pipe(cock.pipe()) + " cock behind " + signals.vehicle(cock.behind(), scope)
                    + (cock.shut() ? " shut" : " open");
        } else if (stimulus instanceof Stimulus.OtherCabCharge charge) {
            text = "other cab " + (charge.charging() ? "charging" : "shut");
        }
        return Optional.ofNullable(text);
    }

    private String over(Optional<Operand> over, Scope scope) {
        return over.map(time -> " over " + figures.value(time, scope)).orElse("");
    }

    private String supplied(Operand level, Scope scope) {
        if (level instanceof Operand.Written written && written.quantity().dimension() == Dimension.NOMINAL_SHARE) {
            double share = written.quantity().base();
            if (share == 0 || share == 1) {
                return onOff(share == 1);
            }
        }
        return "at " + figures.value(level, scope);
    }

    private static String onOff(boolean on) {
        return on ? "on" : "off";
    }

    private static String pipe(Stimulus.PipeName pipe) {
        return pipe.text().replace('-', ' ');
    }
}
