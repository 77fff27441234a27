package com.android.tools.r8;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.Paths;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * Stands in for the SDK's d8 where there is no SDK: takes what the builds here and Slint's say to it, and
 * lets Debian's dx do it, which is older than lambdas.
 */
public final class D8 {
    private D8() {}

    /** Writes classes.dex into the folder after --output, of the class files given. */
    public static void main(String[] words) throws Exception {
        Path out = Paths.get(".");
        // What dx takes to begin with: interfaces with bodies.
        int oldest = 24;
        List<Path> classes = new ArrayList<>();
        for (int i = 0; i < words.length; i++) {
            switch (words[i]) {
                case "--release":
                case "--debug":
                    break;
                case "--min-api":
                    oldest = Math.max(oldest, Integer.parseInt(words[++i]));
                    break;
                case "--lib":
                case "--classpath":
                    i++;
                    break;
                case "--output":
                    out = Paths.get(words[++i]);
                    break;
                default:
                    if (words[i].startsWith("--")) {
                        throw new IllegalArgumentException(words[i] + " is not known here");
                    }
                    classes.add(Paths.get(words[i]));
            }
        }
        List<String> dx = new ArrayList<>();
        dx.add("--dex");
        dx.add("--min-sdk-version=" + oldest);
        // The files lie in folders of their own, not in those of their packages.
        dx.add("--no-strict");
        dx.add("--output=" + out.resolve("classes.dex"));
        dx.addAll(withoutLambdas(classes));
        com.android.dx.command.Main.main(dx.toArray(new String[0]));
    }

    private static List<String> withoutLambdas(List<Path> classes) throws Exception {
        Path work = Files.createTempDirectory("d8");
        List<String> files = new ArrayList<>();
        for (Path one : classes) {
            for (Map.Entry<String, byte[]> made : Lambdas.turned(Files.readAllBytes(one)).entrySet()) {
                Path to = work.resolve(made.getKey() + ".class");
                Files.createDirectories(to.getParent());
                Files.write(to, made.getValue());
                files.add(to.toString());
            }
        }
        return files;
    }
}
