package com.android.tools.r8;

import java.util.LinkedHashMap;
import java.util.Map;
import org.objectweb.asm.ClassReader;
import org.objectweb.asm.ClassVisitor;
import org.objectweb.asm.ClassWriter;
import org.objectweb.asm.Handle;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;
import org.objectweb.asm.Type;

/** Turns every lambda of a class into a class of its own, which holds what the lambda has caught. */
final class Lambdas extends ClassVisitor {
    private final Map<String, byte[]> made = new LinkedHashMap<>();
    private final String owner;

    private Lambdas(String owner, ClassVisitor rest) {
        super(Opcodes.ASM9, rest);
        this.owner = owner;
    }

    /** The class and those of its lambdas, by name. */
    static Map<String, byte[]> turned(byte[] bytes) {
        ClassReader reader = new ClassReader(bytes);
        ClassWriter writer = new ClassWriter(0);
        Lambdas lambdas = new Lambdas(reader.getClassName(), writer);
        reader.accept(lambdas, 0);
        Map<String, byte[]> all = new LinkedHashMap<>(lambdas.made);
        all.put(lambdas.owner, writer.toByteArray());
        return all;
    }

    @Override
    public MethodVisitor visitMethod(int access, String name, String type, String generic, String[] thrown) {
        // A lambda's body is called from the class beside this one.
        int open = name.startsWith("lambda$") ? access & ~Opcodes.ACC_PRIVATE : access;
        return new MethodVisitor(Opcodes.ASM9, super.visitMethod(open, name, type, generic, thrown)) {
            @Override
            public void visitInvokeDynamicInsn(String name, String type, Handle by, Object... given) {
                if (!by.getOwner().equals("java/lang/invoke/LambdaMetafactory")) {
                    throw new IllegalArgumentException(owner + " has what is no lambda: " + by);
                }
                String lambda = lambda(name, type, (Type) given[0], (Handle) given[1], (Type) given[2]);
                super.visitMethodInsn(Opcodes.INVOKESTATIC, lambda, "make", type, false);
            }
        };
    }

    /** Writes the class of one lambda and gives its name. */
    private String lambda(String name, String type, Type bare, Handle body, Type actual) {
        String lambda = owner + "$$Lambda" + made.size();
        Type[] caught = Type.getArgumentTypes(type);
        ClassWriter writer = new ClassWriter(ClassWriter.COMPUTE_MAXS);
        String[] faces = {Type.getReturnType(type).getInternalName()};
        int access = Opcodes.ACC_FINAL | Opcodes.ACC_SYNTHETIC;
        writer.visit(Opcodes.V1_6, access, lambda, null, "java/lang/Object", faces);
        for (int i = 0; i < caught.length; i++) {
            int held = Opcodes.ACC_PRIVATE | Opcodes.ACC_FINAL;
            writer.visitField(held, "caught" + i, caught[i].getDescriptor(), null, null);
        }
        constructor(writer, lambda, caught);
        maker(writer, lambda, type, caught);
        call(writer, lambda, name, caught, bare, body, actual);
        writer.visitEnd();
        made.put(lambda, writer.toByteArray());
        return lambda;
    }

    private static void constructor(ClassWriter writer, String lambda, Type[] caught) {
        String type = Type.getMethodDescriptor(Type.VOID_TYPE, caught);
        MethodVisitor code = writer.visitMethod(0, "<init>", type, null, null);
        code.visitVarInsn(Opcodes.ALOAD, 0);
        code.visitMethodInsn(Opcodes.INVOKESPECIAL, "java/lang/Object", "<init>", "()V", false);
        int at = 1;
        for (int i = 0; i < caught.length; i++) {
            code.visitVarInsn(Opcodes.ALOAD, 0);
            code.visitVarInsn(caught[i].getOpcode(Opcodes.ILOAD), at);
            code.visitFieldInsn(Opcodes.PUTFIELD, lambda, "caught" + i, caught[i].getDescriptor());
            at += caught[i].getSize();
        }
        end(code, Opcodes.RETURN);
    }

    private static void maker(ClassWriter writer, String lambda, String type, Type[] caught) {
        MethodVisitor code = writer.visitMethod(Opcodes.ACC_STATIC, "make", type, null, null);
        code.visitTypeInsn(Opcodes.NEW, lambda);
        code.visitInsn(Opcodes.DUP);
        int at = 0;
        for (Type one : caught) {
            code.visitVarInsn(one.getOpcode(Opcodes.ILOAD), at);
            at += one.getSize();
        }
        String made = Type.getMethodDescriptor(Type.VOID_TYPE, caught);
        code.visitMethodInsn(Opcodes.INVOKESPECIAL, lambda, "<init>", made, false);
        end(code, Opcodes.ARETURN);
    }

    private static void call(
            ClassWriter writer, String lambda, String name, Type[] caught, Type bare, Handle body, Type actual) {
        MethodVisitor code = writer.visitMethod(Opcodes.ACC_PUBLIC, name, bare.getDescriptor(), null, null);
        for (int i = 0; i < caught.length; i++) {
            code.visitVarInsn(Opcodes.ALOAD, 0);
            code.visitFieldInsn(Opcodes.GETFIELD, lambda, "caught" + i, caught[i].getDescriptor());
        }
        Type[] given = bare.getArgumentTypes();
        Type[] wanted = actual.getArgumentTypes();
        int at = 1;
        for (int i = 0; i < given.length; i++) {
            code.visitVarInsn(given[i].getOpcode(Opcodes.ILOAD), at);
            if (!given[i].equals(wanted[i])) {
                code.visitTypeInsn(Opcodes.CHECKCAST, wanted[i].getInternalName());
            }
            at += given[i].getSize();
        }
        Type gives = Type.getReturnType(body.getDesc());
        if (gives.getSort() != bare.getReturnType().getSort()) {
            throw new IllegalArgumentException(lambda + " gives another kind than it is asked for");
        }
        code.visitMethodInsn(kind(body), body.getOwner(), body.getName(), body.getDesc(), body.isInterface());
        end(code, bare.getReturnType().getOpcode(Opcodes.IRETURN));
    }

    private static int kind(Handle body) {
        switch (body.getTag()) {
            case Opcodes.H_INVOKESTATIC:
                return Opcodes.INVOKESTATIC;
            case Opcodes.H_INVOKEINTERFACE:
                return Opcodes.INVOKEINTERFACE;
            case Opcodes.H_INVOKEVIRTUAL:
            case Opcodes.H_INVOKESPECIAL:
                return Opcodes.INVOKEVIRTUAL;
            default:
                throw new IllegalArgumentException("no way to call " + body);
        }
    }

    private static void end(MethodVisitor code, int instruction) {
        code.visitInsn(instruction);
        code.visitMaxs(0, 0);
        code.visitEnd();
    }
}
