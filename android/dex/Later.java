import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.Paths;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;
import org.objectweb.asm.ClassReader;
import org.objectweb.asm.ClassWriter;
import org.objectweb.asm.Opcodes;

/**
 * Adds to Debian's android.jar, which is of API 23, what the app and the toolkit use of later ones:
 * {@code Later android.jar later.txt CLASSES NEW.jar}.
 */
public final class Later {
    private static final int STATIC = Opcodes.ACC_PUBLIC | Opcodes.ACC_STATIC;

    private Later() {}

    public static void main(String[] words) throws IOException {
        Map<String, List<String[]>> added = new TreeMap<>();
        for (String line : Files.readAllLines(Paths.get(words[1]))) {
            if (!line.isEmpty() && !line.startsWith("#")) {
                String[] parts = line.split(" +");
                added.computeIfAbsent(parts[1], none -> new ArrayList<>()).add(parts);
            }
        }
        try (ZipFile old = new ZipFile(words[0]);
                ZipOutputStream all = new ZipOutputStream(Files.newOutputStream(Paths.get(words[3])))) {
            for (ZipEntry entry : Collections.list(old.entries())) {
                String name = entry.getName().replaceAll("\\.class$", "");
                byte[] bytes = old.getInputStream(entry).readAllBytes();
                write(all, entry.getName(), enlarged(name, bytes, added));
            }
            for (String name : new ArrayList<>(added.keySet())) {
                write(all, name + ".class", made(name, added.remove(name)));
            }
            Path classes = Paths.get(words[2]);
            for (Path file : files(classes)) {
                write(all, classes.relativize(file).toString(), Files.readAllBytes(file));
            }
        }
    }

    private static List<Path> files(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            return all.filter(Files::isRegularFile).collect(Collectors.toList());
        }
    }

    private static void write(ZipOutputStream all, String name, byte[] bytes) throws IOException {
        all.putNextEntry(new ZipEntry(name));
        all.write(bytes);
        all.closeEntry();
    }

    /** A class of the jar with what is added to it, and with the names of those added inside it. */
    private static byte[] enlarged(String name, byte[] bytes, Map<String, List<String[]>> added) {
        List<String[]> members = added.remove(name);
        List<String> inner = new ArrayList<>();
        for (String other : added.keySet()) {
            if (other.startsWith(name + "$")) {
                inner.add(other);
            }
        }
        if (members == null && inner.isEmpty()) {
            return bytes;
        }
        ClassReader reader = new ClassReader(bytes);
        ClassWriter writer = new ClassWriter(reader, 0);
        reader.accept(writer, 0);
        for (String one : inner) {
            inside(writer, one);
        }
        if (members != null) {
            add(writer, members, (reader.getAccess() & Opcodes.ACC_INTERFACE) != 0);
        }
        return writer.toByteArray();
    }

    /** A class that API 23 lacks, inside one that it has. */
    private static byte[] made(String name, List<String[]> members) {
        ClassWriter writer = new ClassWriter(0);
        int access = Opcodes.ACC_PUBLIC | Opcodes.ACC_FINAL;
        writer.visit(Opcodes.V1_8, access, name, null, "java/lang/Object", null);
        inside(writer, name);
        add(writer, members, false);
        return writer.toByteArray();
    }

    private static void inside(ClassWriter writer, String name) {
        int at = name.lastIndexOf('$');
        writer.visitInnerClass(name, name.substring(0, at), name.substring(at + 1), STATIC | Opcodes.ACC_FINAL);
    }

    private static void add(ClassWriter writer, List<String[]> members, boolean anInterface) {
        int constant = STATIC | Opcodes.ACC_FINAL;
        int method = Opcodes.ACC_PUBLIC | (anInterface ? Opcodes.ACC_ABSTRACT : Opcodes.ACC_NATIVE);
        for (String[] part : members) {
            switch (part[2]) {
                case "method":
                    writer.visitMethod(method, part[3], part[4], null, null).visitEnd();
                    break;
                case "static":
                    writer.visitMethod(STATIC | Opcodes.ACC_NATIVE, part[3], part[4], null, null).visitEnd();
                    break;
                case "int":
                    writer.visitField(constant, part[3], "I", null, Integer.valueOf(part[4])).visitEnd();
                    break;
                case "string":
                    writer.visitField(constant, part[3], "Ljava/lang/String;", null, part[4]).visitEnd();
                    break;
                case "object":
                    writer.visitField(constant, part[3], part[4], null, null).visitEnd();
                    break;
                default:
                    throw new IllegalArgumentException(part[2] + " is no kind of member");
            }
        }
    }
}
