package dev.lapwing.cli;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.files.Loaded;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Optional;
import picocli.CommandLine.Parameters;

/** The bench file that a command is given. */
final class GivenBench {
    @Parameters(
            arity = "1",
            paramLabel = "FILE",
            description = "The bench file; its link leads to a bench outside this program.")
    private Path file;

    Path file() {
        return file;
    }

    /** Empty if it has mistakes or describes a bench that answers at no link; that is told. */
    Optional<BenchFile> read(PrintWriter err) {
        return read(file, err);
    }

    /** The same of any bench file. */
    static Optional<BenchFile> read(Path file, PrintWriter err) {
        Loaded<BenchFile> loaded = BenchFiles.load(file);
        if (loaded.value().isEmpty()) {
            err.println(MistakeList.of(loaded.mistakes()));
        }
        Optional<BenchFile> inThisProcess = loaded.value().filter(Benches::inThisProcess);
        inThisProcess.ifPresent(bench -> err.println("lapwing: " + bench.file() + ": the link of this bench is"
                + " 'simulated': it is there only while a run lasts, and answers nobody else; to try this command on a"
                + " simulated bench, start 'lapwing bench serve --serial' and give a bench file with the device that"
                + " it prints, such as 'link: {serial: {device: /dev/pts/3}}'"));
        return inThisProcess.isPresent() ? Optional.empty() : loaded.value();
    }
}
