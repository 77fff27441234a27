import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Paths;
import java.util.Collections;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;
import org.objectweb.asm.ClassReader;
import org.objectweb.asm.ClassVisitor;
import org.objectweb.asm.ClassWriter;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;
import org.objectweb.asm.Type;

/**
 * Makes an android.jar whose methods do nothing and give nothing, where they would say that they are only
 * there to be compiled against; and of which everything can be made and overridden:
 * {@code Soft android.jar NEW.jar}.
 */
public final class Soft {
    private static final int BARE = Opcodes.ACC_ABSTRACT | Opcodes.ACC_NATIVE;

    private Soft() {}

    public static void main(String[] words) throws IOException {
        try (ZipFile from = new ZipFile(words[0]);
                ZipOutputStream to = new ZipOutputStream(Files.newOutputStream(Paths.get(words[1])))) {
            for (ZipEntry entry : Collections.list(from.entries())) {
                String name = entry.getName();
                if (name.endsWith(".class") && (name.startsWith("android/") || name.startsWith("dalvik/"))) {
                    to.putNextEntry(new ZipEntry(name));
                    to.write(soft(from.getInputStream(entry).readAllBytes()));
                    to.closeEntry();
                }
            }
        }
    }

    private static byte[] soft(byte[] bytes) {
        ClassReader reader = new ClassReader(bytes);
        ClassWriter writer = new ClassWriter(ClassWriter.COMPUTE_MAXS);
        boolean face = (reader.getAccess() & Opcodes.ACC_INTERFACE) != 0;
        ClassVisitor made = face ? new Face(writer) : new Made(writer);
        reader.accept(made, ClassReader.SKIP_FRAMES | ClassReader.SKIP_DEBUG);
        return writer.toByteArray();
    }

    /** An interface stays as it is. */
    private static final class Face extends ClassVisitor {
        Face(ClassVisitor rest) {
            super(Opcodes.ASM9, rest);
        }

        @Override
        public void visit(int version, int access, String name, String generic, String above, String[] faces) {
            super.visit(Opcodes.V1_8, access, name, generic, above, faces);
        }
    }

    private static final class Made extends ClassVisitor {
        Made(ClassVisitor rest) {
            super(Opcodes.ASM9, rest);
        }

        @Override
        public void visit(int version, int access, String name, String generic, String above, String[] faces) {
            int open = access & ~(Opcodes.ACC_FINAL | Opcodes.ACC_ABSTRACT);
            // So old that its code needs no map of its stack.
            super.visit(Opcodes.V1_6, open, name, generic, above, faces);
        }

        @Override
        public MethodVisitor visitMethod(int access, String name, String type, String generic, String[] thrown) {
            int open = access & ~(Opcodes.ACC_FINAL | BARE);
            if (name.equals("<init>")) {
                open = open & ~(Opcodes.ACC_PRIVATE | Opcodes.ACC_PROTECTED) | Opcodes.ACC_PUBLIC;
            }
            MethodVisitor code = super.visitMethod(open, name, type, generic, thrown);
            Type gives = Type.getReturnType(type);
            if ((access & BARE) != 0) {
                code.visitCode();
                giveNothing(code, gives);
                code.visitMaxs(0, 0);
                code.visitEnd();
                return null;
            }
            return new MethodVisitor(Opcodes.ASM9, code) {
                @Override
                public void visitInsn(int instruction) {
                    if (instruction == Opcodes.ATHROW) {
                        super.visitInsn(Opcodes.POP);
                        giveNothing(mv, gives);
                    } else {
                        super.visitInsn(instruction);
                    }
                }
            };
        }
    }

    private static void giveNothing(MethodVisitor code, Type kind) {
        switch (kind.getSort()) {
            case Type.VOID:
                break;
            case Type.LONG:
                code.visitInsn(Opcodes.LCONST_0);
                break;
            case Type.FLOAT:
                code.visitInsn(Opcodes.FCONST_0);
                break;
            case Type.DOUBLE:
                code.visitInsn(Opcodes.DCONST_0);
                break;
            case Type.OBJECT:
            case Type.ARRAY:
                code.visitInsn(Opcodes.ACONST_NULL);
                break;
            default:
                code.visitInsn(Opcodes.ICONST_0);
        }
        code.visitInsn(kind.getOpcode(Opcodes.IRETURN));
    }
}
